import type { Order, OrderState } from '#shared/planning/types.ts';
import type { OrderField } from '#shared/shop/import-fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { formatMoney } from '#shared/units/money.ts';
import { wallTimeAt } from '../local-time.ts';
import type { OrderDraft } from './order-drafts.ts';
import type { OrderRowFacts } from './order-rows.ts';

export interface StoredOrder {
  readonly order: Order;
  readonly state: OrderState;
}

/** The finished order; fields whose column the file does not have stay as they were stored. */
export function toOrder(
  { id, facts }: Pick<OrderDraft, 'id' | 'facts'>,
  skus: readonly string[],
  stored: Order | undefined,
  has: (field: OrderField) => boolean,
): Order | null {
  if (facts.buyer === undefined || facts.to === undefined || facts.shipBy === undefined) return null;
  const arriveBy = has('arriveBy') ? arriveByOf(facts.arriveBy, stored?.arriveBy) : stored?.arriveBy;
  const service = has('service') ? facts.service : stored?.service;
  const paidPostage = has('paidPostage') ? facts.paidPostage : stored?.paidPostage;
  const note = has('note') ? facts.note : stored?.note;
  const hasAddress = has('street') || has('city');
  return {
    id,
    pieces: skus.map((sku) => ({ sku, count: 1 })),
    buyer: facts.buyer,
    address: hasAddress ? (facts.address ?? []) : (stored?.address ?? []),
    to: facts.to,
    // A time that counts from the import would differ every time: the first import fixed it.
    shipBy: facts.shipBy.relative && stored !== undefined ? stored.shipBy : facts.shipBy.instant,
    ...(arriveBy === undefined ? {} : { arriveBy }),
    ...(service === undefined ? {} : { service }),
    ...(paidPostage === undefined ? {} : { paidPostage }),
    ...(note === undefined ? {} : { note }),
    ...(stored?.leftOut === undefined ? {} : { leftOut: stored.leftOut }),
    ...(stored?.restOf === undefined ? {} : { restOf: stored.restOf }),
  };
}

/** As with the ship-by time, a day that counts from the import was fixed by the first one. */
function arriveByOf(read: OrderRowFacts['arriveBy'], stored: Order['arriveBy']): Order['arriveBy'] {
  return read?.relative === true && stored !== undefined ? stored : read?.day;
}

/** An order's fields as text, for the preview and to see what a new file changes. */
export function orderTexts(order: Order, shop: Shop): Record<string, string> {
  return {
    pieces: order.pieces.map(({ sku }) => sku).join(' '),
    buyer: order.buyer,
    address: order.address.join('; '),
    postcode: order.to.postcode,
    country: order.to.country,
    shipBy: localMinute(order.shipBy, shop.timeZone),
    arriveBy: order.arriveBy ?? '',
    service: order.service ?? '',
    paidPostage: order.paidPostage === undefined ? '' : formatMoney(order.paidPostage),
    note: order.note ?? '',
  };
}

const two = (count: number): string => String(count).padStart(2, '0');

/** "2026-11-25 16:30" on the shop's clock */
function localMinute(instant: string, timeZone: string): string {
  const { year, month, day, hour, minute } = wallTimeAt(Date.parse(instant), timeZone);
  return `${String(year)}-${two(month)}-${two(day)} ${two(hour)}:${two(minute)}`;
}
