import { checkedAddresses } from '#server/store/address-checks.ts';
import { unpackedOrders } from '#server/store/day.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';

import { addressDoubts, addressKey } from '#shared/addresses/address-doubts.ts';
import type { AddressDoubt } from '#shared/addresses/types.ts';
import type { Order } from '#shared/planning/types.ts';
import type { DoubtfulAddress } from '#shared/wire/addresses.ts';
import type { BenchView } from '#shared/wire/views.ts';

/** Every order that is not packed yet whose address looks wrong and was not found right. */
export async function doubtfulAddresses(store: StoreOrTransaction): Promise<readonly DoubtfulAddress[]> {
  const unpacked = [...(await unpackedOrders(store))].sort((a, b) => (a.order.shipBy < b.order.shipBy ? -1 : 1));
  const doubtful = unpacked.flatMap(({ order, state }): DoubtfulAddress[] => {
    const doubts = addressDoubts(order);
    if (doubts.length === 0) return [];
    const { id, buyer, address, to } = order;
    const { postcode, country } = to;
    return [{ order: id, buyer, state, lines: address, postcode, country, doubts, key: addressKey(order) }];
  });
  const checked = await checkedAddresses(
    store,
    doubtful.map(({ order }) => order),
  );
  return doubtful.filter(({ order, key }) => checked.get(order) !== key);
}

/**
 * What whoever packs the order should ask the office about; nothing where the address was found right. An order without
 * any address has its label, and the address with it, from elsewhere: the office knows, the bench need not ask.
 */
export async function doubtsToPack(store: StoreOrTransaction, order: Order): Promise<readonly AddressDoubt[]> {
  const doubts = addressDoubts(order).filter(({ about }) => about !== 'no-address');
  if (doubts.length === 0) return doubts;
  const checked = await checkedAddresses(store, [order.id]);
  return checked.get(order.id) === addressKey(order) ? [] : doubts;
}

/** What a bench shows of the address of the order in hand; nothing where it looks well. */
export async function addressShown(store: StoreOrTransaction, order: Order): Promise<Pick<BenchView, 'address'>> {
  const address = await doubtsToPack(store, order);
  return address.length === 0 ? {} : { address };
}
