import type { StoreOrTransaction } from './open.ts';
import type { PlannedPiece } from '#shared/planning/types.ts';
import type { SideInput } from '#shared/side-work/side-work.ts';
import { NO_SIDE_WORK, type SideState } from '#shared/side-work/types.ts';

export interface SideSnapshot {
  readonly seq: number;
  readonly state: SideState;
}

/** What is done at a bench beside packing, as it was last stored. */
export async function loadSideWork(store: StoreOrTransaction, bench: string): Promise<SideSnapshot> {
  const row = await store.selectFrom('side_work_state').selectAll().where('bench', '=', bench).executeTakeFirst();
  return row === undefined
    ? { seq: 0, state: NO_SIDE_WORK }
    : { seq: row.seq, state: { ...NO_SIDE_WORK, ...(JSON.parse(row.body) as Partial<SideState>) } };
}

/** Stores an input together with the state that it leads to. */
export async function saveSideWork(
  store: StoreOrTransaction,
  bench: string,
  { seq, state }: SideSnapshot,
  input: { readonly id: string; readonly input: SideInput; readonly at: number },
): Promise<void> {
  const body = JSON.stringify(state);
  await store
    .insertInto('side_work_input')
    .values({ bench, seq, id: input.id, body: JSON.stringify(input.input), at: input.at })
    .execute();
  await store
    .insertInto('side_work_state')
    .values({ bench, seq, body })
    .onConflict((conflict) => conflict.column('bench').doUpdateSet({ seq, body }))
    .execute();
}

/** The number under which an input was stored, or null when it never was. */
export async function findSideInput(store: StoreOrTransaction, id: string): Promise<number | null> {
  const row = await store.selectFrom('side_work_input').select('seq').where('id', '=', id).executeTakeFirst();
  return row?.seq ?? null;
}

/** The folds of the batch at a bench, once for the whole batch: the state names them by their index. */
export async function loadBatch(store: StoreOrTransaction, bench: string): Promise<readonly PlannedPiece[]> {
  const row = await store.selectFrom('fold_batch').select('body').where('bench', '=', bench).executeTakeFirst();
  return row === undefined ? [] : (JSON.parse(row.body) as readonly PlannedPiece[]);
}

export async function saveBatch(
  store: StoreOrTransaction,
  bench: string,
  folds: readonly PlannedPiece[],
): Promise<void> {
  const body = JSON.stringify(folds);
  await store
    .insertInto('fold_batch')
    .values({ bench, body })
    .onConflict((conflict) => conflict.column('bench').doUpdateSet({ body }))
    .execute();
}

export async function dropBatch(store: StoreOrTransaction, bench: string): Promise<void> {
  await store.deleteFrom('fold_batch').where('bench', '=', bench).execute();
}
