import type { RefusedLine } from '#shared/wire/office.ts';
import type { AskedPiece, OrderDraft, OrderDrafts } from './order-drafts.ts';
import { READING_ROUND } from './order-drafts.ts';
import type { StoredOrder } from './orders.ts';
import type { Scratch } from './scratch.ts';

const HOLDS = new Set(['open', 'packing', 'set-aside', 'combined']);

/**
 * Every piece is one of a kind: a draft that asks for a piece of another open order, or of an earlier draft, is refused.
 * A refused draft leaves its stored order, and that order's pieces, as they were.
 */
export class HeldPieces {
  readonly #scratch: Scratch;
  readonly #drafts: OrderDrafts;
  readonly #column: string | null;

  constructor(scratch: Scratch, drafts: OrderDrafts, column: string | null) {
    this.#scratch = scratch;
    this.#drafts = drafts;
    this.#column = column;
  }

  /** Notes which stored orders have some of the pieces that the file asks for. */
  note(skus: ReadonlySet<string>, stored: ReadonlyMap<string, StoredOrder>): void {
    for (const [id, { order, state }] of stored) {
      // What orders were combined into has no pieces of its own.
      if (order.combines !== undefined || !HOLDS.has(state)) continue;
      for (const { sku } of order.pieces) {
        if (skus.has(sku)) this.#scratch.run('insert into holder (sku, id) values (?, ?)', sku, id);
      }
    }
  }

  /** @param turn is called every few milliseconds */
  async refuse(turn: () => Promise<void>): Promise<void> {
    let round = READING_ROUND + 1;
    for (let from = 0; from < this.#drafts.length; from += A_TURN) {
      this.#judge(this.#drafts.slice(from, A_TURN), round);
      await turn();
    }
    // A refusal makes the stored order stand again, which can take a piece from a draft that was judged before.
    for (;;) {
      const shaken = this.#shakenBy(round);
      if (shaken.length === 0) return;
      round += 1;
      for (let at = 0; at < shaken.length; at += A_TURN) {
        const drafts = shaken.slice(at, at + A_TURN).map((seq) => this.#drafts.byNumber(seq));
        this.#judge(
          drafts.filter((draft) => draft !== undefined),
          round,
        );
        await turn();
      }
    }
  }

  #judge(drafts: readonly OrderDraft[], round: number): void {
    for (const draft of drafts) {
      if (draft.refused > 0) continue;
      const refused = this.#drafts.pieces(draft.seq).flatMap((piece) => this.#heldElsewhere(draft, piece, round));
      this.#drafts.refuse(draft.seq, round, refused);
    }
  }

  #heldElsewhere(draft: OrderDraft, { sku, line }: AskedPiece, round: number): readonly RefusedLine[] {
    const holder = this.#holderOf(sku, round);
    if (holder.id === draft.id) return [];
    return [
      {
        line,
        column: this.#column,
        expected: 'a piece that no other open order has',
        found: `"${sku}" on line ${String(line)}, which belongs to ${holder.told}`,
      },
    ];
  }

  /** A stored order that stands, else the first order of the file that asks for it. */
  #holderOf(sku: string, round: number): { readonly id: string; readonly told: string } {
    const stored = this.#scratch.get<{ id: string }>(
      `select holder.id from holder left join draft on draft.id = holder.id where holder.sku = ?
       and (draft.seq is null or (draft.refused > 0 and draft.refused < ?)) order by holder.rowid desc limit 1`,
      ...[sku, round],
    );
    if (stored !== undefined) return { id: stored.id, told: `order ${stored.id}, which was imported before` };
    const first = this.#scratch.get<{ id: string; line: number }>(
      `select draft.id, draft_piece.line from draft_piece join draft on draft.seq = draft_piece.seq
       where draft_piece.sku = ? order by draft_piece.seq limit 1`,
      sku,
    );
    const { id, line } = first ?? { id: '', line: 0 };
    return { id, told: `order ${id} on line ${String(line)}` };
  }

  /** Drafts that ask for a piece of a stored order that stands again since a round. */
  #shakenBy(round: number): readonly number[] {
    const rows = this.#scratch.all<{ seq: number }>(
      `select distinct draft_piece.seq from draft as refused
       join holder on holder.id = refused.id join draft_piece on draft_piece.sku = holder.sku
       join draft on draft.seq = draft_piece.seq
       where refused.refused = ? and refused.refused > 0 and draft.refused = 0 order by draft_piece.seq`,
      round,
    );
    return rows.map(({ seq }) => seq);
  }
}

/** So many orders are some milliseconds. */
const A_TURN = 200;
