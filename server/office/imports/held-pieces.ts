import type { OrderDraft, StoredOrder } from './orders.ts';

const HOLDS = new Set(['open', 'packing', 'set-aside', 'combined']);

/**
 * Every piece is one of a kind: a draft that asks for a piece of another open order, or of an earlier draft, is refused.
 * A refused draft leaves its stored order, and that order's pieces, as they were.
 */
export function* refuseHeldPieces(
  drafts: ReadonlyMap<string, OrderDraft>,
  stored: ReadonlyMap<string, StoredOrder>,
  column: string | null,
): Generator<number, void> {
  // A refusal here makes the stored order stand again, which can take a piece from a draft judged before: look again.
  while (yield* refuseOnce(drafts, stored, column)) continue;
}

/** So many orders are some milliseconds. */
const A_TURN = 1000;

function* refuseOnce(
  drafts: ReadonlyMap<string, OrderDraft>,
  stored: ReadonlyMap<string, StoredOrder>,
  column: string | null,
): Generator<number, boolean> {
  let seen = 0;
  const holders = new Map<string, string>();
  for (const [id, { order, state }] of stored) {
    const draft = drafts.get(id);
    if (++seen % A_TURN === 0) yield 0;
    // What orders were combined into has no pieces of its own.
    if (order.combines !== undefined || !HOLDS.has(state) || draft?.refused.length === 0) continue;
    for (const { sku } of order.pieces) holders.set(sku, `order ${id}, which was imported before`);
  }
  let refusedAny = false;
  for (const draft of drafts.values()) {
    const wasRefused = draft.refused.length > 0;
    if (++seen % A_TURN === 0) yield 0;
    for (const [sku, line] of draft.skus) {
      const holder = holders.get(sku);
      if (holder === undefined) {
        holders.set(sku, `order ${draft.id} on line ${String(line)}`);
      } else if (!wasRefused && !holder.startsWith(`order ${draft.id},`)) {
        draft.refused.push({
          line,
          column,
          expected: 'a piece that no other open order has',
          found: `"${sku}" on line ${String(line)}, which belongs to ${holder}`,
        });
        refusedAny = true;
      }
    }
  }
  return refusedAny;
}
