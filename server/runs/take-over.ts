import { randomUUID } from 'node:crypto';
import { takeOverClaim } from '#server/store/leases.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { closeOrder, type StoredOrder } from '#server/store/orders.ts';
import { ParcelShelf, type Kept } from '#server/store/planned-parcels.ts';
import { loadBench, saveBench, saveInput } from '#server/store/runs.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunFacts, RunInput } from '#shared/run/types.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';

export interface TakeOverParts {
  readonly store: StoreOrTransaction;
  readonly shop: Shop;
  readonly bench: BenchConfig;
  readonly facts: RunFacts;
}

/** The bench that had the run, and its parcels that are stored already. */
export interface TakenFrom {
  readonly bench: string;
  readonly kept: Kept;
}

/** What came of asking for an order that another bench has in hand. */
export type AskedOver =
  /** that bench is there */
  | { readonly is: 'held' }
  /** it is silent: asked again soon, the order is this bench's */
  | { readonly is: 'offered'; readonly bench: string }
  | { readonly is: 'taken'; readonly from: TakenFrom; readonly input: RunInput }
  /** it was claimed and never begun: it is open again */
  | { readonly is: 'free' };

/**
 * Takes over what a silent bench was packing, when this one asks for the second time. Both benches' states change in the
 * transaction of the asking; the silent one finds out with the next thing that it is given.
 */
export async function askOver(
  { store, shop, bench, facts }: TakeOverParts,
  { order: { id: order }, bench: from, run }: StoredOrder,
): Promise<AskedOver> {
  if (from === null || run === null || from === bench.id) return { is: 'held' };
  const nameOf = (each: string) => shop.benches.find((config) => config.id === each)?.name ?? each;
  const asked = await takeOverClaim(store, { order, from, run, to: bench.id, now: facts.now });
  if (asked === 'held') return { is: 'held' };
  if (asked === 'offered') return { is: 'offered', bench: nameOf(from) };
  const old = await loadBench(store, from);
  if (old.state.run !== run || old.state.order === null) {
    await closeOrder(store, { order, state: 'open', reason: null, now: facts.now });
    return { is: 'free' };
  }
  const shelf = new ParcelShelf(store, old.kept);
  const given: RunInput = { type: 'given-over', order, to: nameOf(bench.id) };
  const { state } = transition(old.state, given, facts);
  const seq = old.seq + 1;
  await saveInput(store, { bench: from, seq, id: randomUUID(), run, input: given, at: facts.now }, shelf);
  await saveBench(store, from, { seq, state }, shelf);
  const { parcels, ...rest } = old.state;
  return {
    is: 'taken',
    from: { bench: from, kept: old.kept },
    input: { type: 'taken-over', from: nameOf(from), run: rest, plan: { parcels } },
  };
}
