import { MOST_PIECES } from '#shared/planning/most-pieces.ts';
import type { Order } from '#shared/planning/types.ts';
import { normalPostcode } from '#shared/rating/postcodes.ts';
import { addMoney } from '#shared/units/money.ts';

/** Numbers of orders are codes that are scanned; longer ones are not taken anywhere. */
const LONGEST_NUMBER = 40;

const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/[^\p{L}\p{N}]+/gu, '')
    .toLowerCase();

/**
 * What orders have in common that may go in one parcel: buyer, address, country and the service that was paid for, however
 * they are written. Null where the address is not known: two buyers of one name may live in one town.
 */
function togetherKey({ buyer, address, to, service }: Order): string | null {
  if (address.length === 0) return null;
  const postcode = normalPostcode(to.postcode, to.country);
  const lines = address.map(plain).join('').replaceAll(plain(to.postcode), '');
  return [plain(buyer), lines, postcode, to.country, service ?? ''].join('|');
}

/**
 * Orders of one buyer to one address, the soonest to leave first; as many of each group as one order may have pieces.
 * Orders that are combined already are left alone.
 */
export function groupsToCombine(orders: readonly Order[]): readonly (readonly Order[])[] {
  const groups = new Map<string, Order[]>();
  const inTurn = [...orders].sort((a, b) =>
    a.shipBy === b.shipBy ? (a.id < b.id ? -1 : 1) : a.shipBy < b.shipBy ? -1 : 1,
  );
  for (const order of inTurn) {
    const key = order.combines === undefined ? togetherKey(order) : null;
    if (key === null) continue;
    const group = groups.get(key) ?? [];
    if (mayBeOne([...group, order])) groups.set(key, [...group, order]);
  }
  return [...groups.values()].filter(({ length }) => length > 1);
}

function mayBeOne(orders: readonly Order[]): boolean {
  const pieces = orders.reduce((sum, order) => sum + order.pieces.length, 0);
  const currencies = new Set(orders.flatMap(({ paidPostage }) => paidPostage?.currency ?? []));
  return pieces <= MOST_PIECES && currencies.size <= 1 && combinedNumber(orders).length <= LONGEST_NUMBER;
}

/** "4101+4104": names every order on the slip, the label and in every file. */
export function combinedNumber(orders: readonly Order[]): string {
  return orders.map(({ id }) => id).join('+');
}

/**
 * The one order that several become: their pieces, the earliest of their times, all that was paid; what is not known of
 * one of them is not known of the whole.
 */
export function combined(orders: readonly [Order, ...Order[]]): Order {
  const [first] = orders;
  const paid = orders.flatMap(({ paidPostage }) => paidPostage ?? []);
  const [firstPaid, ...restPaid] = paid;
  const promised = orders.flatMap(({ arriveBy }) => arriveBy ?? []).sort();
  const notes = orders.flatMap(({ id, note }) => (note === undefined ? [] : [`${id}: ${note}`]));
  return {
    id: combinedNumber(orders),
    pieces: orders.flatMap(({ pieces }) => pieces),
    buyer: first.buyer,
    address: first.address,
    to: first.to,
    shipBy: orders.map(({ shipBy }) => shipBy).reduce((soonest, each) => (each < soonest ? each : soonest)),
    ...(first.service === undefined ? {} : { service: first.service }),
    ...(promised[0] === undefined ? {} : { arriveBy: promised[0] }),
    ...(firstPaid === undefined || paid.length < orders.length
      ? {}
      : { paidPostage: addMoney(firstPaid, ...restPaid) }),
    ...(notes.length === 0 ? {} : { note: notes.join('; ') }),
    combines: orders.map(({ id }) => id),
  };
}
