import type { StoreOrTransaction } from './open.ts';

/** Which address of each of these orders was found right by a person. */
export async function checkedAddresses(
  store: StoreOrTransaction,
  orders: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const found = new Map<string, string>();
  for (let at = 0; at < orders.length; at += CHUNK) {
    const rows = await store
      .selectFrom('address_checked')
      .select(['order_id', 'address'])
      .where('order_id', 'in', orders.slice(at, at + CHUNK))
      .execute();
    for (const { order_id, address } of rows) found.set(order_id, address);
  }
  return found;
}

/** SQLite takes a bounded number of parameters in one statement. */
const CHUNK = 400;

export async function saveAddressCheck(
  store: StoreOrTransaction,
  { order, address, now }: { readonly order: string; readonly address: string; readonly now: number },
): Promise<void> {
  await store
    .insertInto('address_checked')
    .values({ order_id: order, address, at: now })
    .onConflict((conflict) => conflict.column('order_id').doUpdateSet({ address, at: now }))
    .execute();
}
