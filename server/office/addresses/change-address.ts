import { carryToRests } from '#server/office/partial/leave-out.ts';
import { RowReader } from '#server/office/imports/row.ts';
import { readAddressed } from '#server/office/imports/order-rows.ts';
import type { Column } from '#server/office/imports/columns.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { findOrder, saveOrder } from '#server/store/orders.ts';
import { addressDoubts, addressKey } from '#shared/addresses/address-doubts.ts';
import type { Order } from '#shared/planning/types.ts';
import type { OrderField } from '#shared/shop/import-fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { ADDRESS_FIELDS, type AddressField, type AddressStored, type GivenAddress } from '#shared/wire/addresses.ts';

export type AddressOutcome =
  | { readonly done: true; readonly answer: AddressStored }
  | {
      readonly done: false;
      readonly why: 'unknown-order' | 'in-hand' | 'not-waiting' | 'combined' | 'parcel-finished';
    };

type Addressed = Pick<Order, 'buyer' | 'address' | 'to'>;

/** What a form holds of an address, in the columns that a file has for it. */
const COLUMN_OF: Readonly<Record<AddressField, OrderField>> = {
  name: 'buyer',
  lines: 'street',
  postcode: 'postcode',
  country: 'country',
};

/**
 * Gives an order that waits another address, by the rules of an import: it counts as changed, so it is planned anew, and what
 * follows it goes there, too. Everything else of the order stays. Nothing is stored where a field is refused.
 */
export function changeAddress(
  { store, shop, now }: { readonly store: Store; readonly shop: Shop; readonly now: number },
  id: string,
  given: GivenAddress,
  note: (transaction: StoreOrTransaction, changed: readonly AddressField[]) => Promise<void>,
): Promise<AddressOutcome> {
  return inTransaction(store, async (transaction): Promise<AddressOutcome> => {
    const stored = await findOrder(transaction, id);
    if (stored === null) return { done: false, why: 'unknown-order' };
    const { order, state } = stored;
    if (state === 'packing') return { done: false, why: 'in-hand' };
    if (state === 'combined' || order.combines !== undefined) return { done: false, why: 'combined' };
    if (state !== 'open' && state !== 'set-aside') return { done: false, why: 'not-waiting' };
    const parcel = await transaction.selectFrom('parcel').select('id').where('order_id', '=', id).executeTakeFirst();
    if (parcel !== undefined) return { done: false, why: 'parcel-finished' };
    const read = readGiven(given, shop);
    if ('refused' in read)
      return { done: true, answer: { order: id, stored: false, refused: read.refused, doubts: [] } };
    const changed = fieldsChanged(order, read);
    if (changed.length > 0) {
      const next = { ...order, ...read };
      await saveOrder(transaction, next, now);
      await carryToRests(transaction, [next], now);
      await note(transaction, changed);
    }
    return { done: true, answer: { order: id, stored: true, refused: [], doubts: addressDoubts(read) } };
  });
}

function readGiven(given: GivenAddress, shop: Shop): Addressed | { readonly refused: AddressStored['refused'] } {
  const columns = new Map<OrderField, Column>(
    ADDRESS_FIELDS.map((field, index) => [COLUMN_OF[field], { index, header: field, unit: null }]),
  );
  const cells = ADDRESS_FIELDS.map((field) => (field === 'lines' ? given.lines.join('\n') : given[field]));
  const row = new RowReader<OrderField>({ line: 1, cells }, columns, cells.length);
  // A file may leave the country out; a form shows one.
  row.needed('country', 'a country code such as US, or its name');
  const { buyer, to, address } = readAddressed(row, true, shop);
  if (row.refused.length === 0 && buyer !== undefined && to !== undefined) return { buyer, to, address };
  const refused = row.refused.map(({ column, expected, found }) => ({
    field: ADDRESS_FIELDS.find((field) => field === column) ?? 'lines',
    expected,
    found,
  }));
  return { refused };
}

function fieldsChanged(before: Addressed, after: Addressed): readonly AddressField[] {
  const text = ({ buyer, address, to }: Addressed): Readonly<Record<AddressField, string>> => ({
    name: buyer,
    lines: address.join('\n'),
    postcode: to.postcode,
    country: to.country,
  });
  if (before.buyer === after.buyer && addressKey(before) === addressKey(after)) return [];
  const [was, is] = [text(before), text(after)];
  return ADDRESS_FIELDS.filter((field) => was[field] !== is[field]);
}
