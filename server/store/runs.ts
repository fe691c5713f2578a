import type { StoreOrTransaction } from './open.ts';
import { NOTHING_KEPT, parcelsOf, type Kept, type ParcelShelf, type StoredRun } from './planned-parcels.ts';
import { IDLE } from '#shared/run/initial.ts';
import type { Comparison } from '#shared/planning/comparison.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';

export interface BenchSnapshot {
  readonly seq: number;
  readonly state: RunState;
  /** of its parcels, those that have a row of their own */
  readonly kept: Kept;
}

/** The exact step at a bench as it was last stored; an unknown bench is idle. */
export async function loadBench(store: StoreOrTransaction, bench: string): Promise<BenchSnapshot> {
  const row = await store.selectFrom('bench_state').selectAll().where('bench', '=', bench).executeTakeFirst();
  // What an older version stored lacks what was added since.
  if (row === undefined) return { seq: 0, state: IDLE, kept: NOTHING_KEPT };
  const stored = JSON.parse(row.body) as Partial<StoredRun>;
  const { parcels, kept } = await parcelsOf(store, stored.parcels ?? []);
  return { seq: row.seq, state: { ...IDLE, ...stored, parcels }, kept };
}

export async function saveBench(
  store: StoreOrTransaction,
  bench: string,
  { seq, state }: Omit<BenchSnapshot, 'kept'>,
  shelf: ParcelShelf,
): Promise<void> {
  const row = { bench, seq, body: JSON.stringify(await shelf.storedRun(state)) };
  await store
    .insertInto('bench_state')
    .values(row)
    .onConflict((conflict) => conflict.column('bench').doUpdateSet({ seq: row.seq, body: row.body }))
    .execute();
}

/** The number under which an input was stored, or null when it never was. */
export async function findInput(store: StoreOrTransaction, id: string): Promise<number | null> {
  const row = await store.selectFrom('input').select('seq').where('id', '=', id).executeTakeFirst();
  return row?.seq ?? null;
}

/** An input as it was stored, without the plans that some bring. */
export type StoredInput =
  Exclude<RunInput, { readonly plan: unknown }> | { readonly type: 'order-taken' | 'replanned' | 'shortened' };

/** The last input that a bench took; null when it never took any. */
export async function lastInput(store: StoreOrTransaction, bench: string): Promise<StoredInput | null> {
  const row = await store
    .selectFrom('input')
    .select('body')
    .where('bench', '=', bench)
    .orderBy('seq', 'desc')
    .limit(1)
    .executeTakeFirst();
  return row === undefined ? null : (JSON.parse(row.body) as StoredInput);
}

export async function saveInput(
  store: StoreOrTransaction,
  stored: {
    readonly bench: string;
    readonly seq: number;
    readonly id: string;
    readonly run: string | null;
    readonly input: RunInput;
    readonly at: number;
  },
  shelf: ParcelShelf,
): Promise<void> {
  const { input, ...rest } = stored;
  const givenBy = 'by' in input ? input.by : 'station';
  await store
    .insertInto('input')
    .values({ ...rest, body: JSON.stringify(await shelf.storedInput(input, rest.run)), given_by: givenBy })
    .execute();
}

export async function startRun(
  store: StoreOrTransaction,
  run: {
    readonly id: string;
    readonly order: string;
    readonly bench: string;
    readonly packer: string | null;
    readonly now: number;
    /** what the plan was expected to save */
    readonly compared?: Comparison;
  },
): Promise<void> {
  await store
    .insertInto('run')
    .values({
      id: run.id,
      order_id: run.order,
      bench: run.bench,
      packer: run.packer,
      started_at: run.now,
      ended_at: null,
      compared: run.compared === undefined ? null : JSON.stringify(run.compared),
    })
    .execute();
}

/** Who began a run, and the times of all that was stored of it, in order. */
export async function courseOf(
  store: StoreOrTransaction,
  run: string,
): Promise<{ readonly packer: string | null; readonly times: readonly number[] }> {
  const begun = await store.selectFrom('run').select('packer').where('id', '=', run).executeTakeFirst();
  const inputs = await store.selectFrom('input').select('at').where('run', '=', run).orderBy('seq').execute();
  return { packer: begun?.packer ?? null, times: inputs.map((input) => input.at) };
}

/** When a bench took its inputs after one of a number, in order; epoch ms. Only what came since an instant is looked at. */
export async function inputTimes(
  store: StoreOrTransaction,
  bench: string,
  { after, since }: { readonly after: number; readonly since: number },
): Promise<readonly { readonly seq: number; readonly at: number }[]> {
  return store
    .selectFrom('input')
    .select(['seq', 'at'])
    .where('bench', '=', bench)
    .where('seq', '>', after)
    .where('at', '>=', since)
    .orderBy('seq')
    .execute();
}

export async function endRun(store: StoreOrTransaction, id: string, now: number): Promise<void> {
  await store.updateTable('run').set({ ended_at: now }).where('id', '=', id).execute();
}

/** The containers of parcels that other benches have planned and not finished, one entry for each parcel. */
export async function containersPlannedElsewhere(
  store: StoreOrTransaction,
  bench: string | null,
): Promise<readonly string[]> {
  const rows = await store
    .selectFrom('bench_state')
    .select('body')
    .where('bench', '!=', bench ?? '')
    .execute();
  return rows.flatMap(({ body }) => {
    const state = JSON.parse(body) as StoredRun;
    if (state.order === null || state.step.at === 'done') return [];
    return state.parcels
      .slice(state.parcel)
      .map((parcel) => ('kept' in parcel ? parcel.container : parcel.container.id));
  });
}
