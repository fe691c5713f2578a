import type { StoreOrTransaction } from './open.ts';

export async function sweepMemory(
  store: StoreOrTransaction,
  what: string,
): Promise<{ readonly at: number | null; readonly heldAt: number | null }> {
  const row = await store.selectFrom('sweep').selectAll().where('what', '=', what).executeTakeFirst();
  return { at: row?.at ?? null, heldAt: row?.held_at ?? null };
}

export async function saveSweepMemory(
  store: StoreOrTransaction,
  what: string,
  { at, heldAt }: { readonly at: number | null; readonly heldAt: number | null },
): Promise<void> {
  await store
    .insertInto('sweep')
    .values({ what, at, held_at: heldAt })
    .onConflict((conflict) => conflict.column('what').doUpdateSet({ at, held_at: heldAt }))
    .execute();
}
