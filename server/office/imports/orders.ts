import type { Order, OrderState } from '#shared/planning/types.ts';
import type { OrderField } from '#shared/shop/import-fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { formatMoney } from '#shared/units/money.ts';
import type { RefusedLine } from '#shared/wire/office.ts';
import { wallTimeAt } from '../local-time.ts';
import type { Column } from './columns.ts';
import { readOrderRow, type OrderReading, type OrderRowFacts } from './order-rows.ts';
import { CODE, CODE_WORDS } from './pieces.ts';
import { RowReader } from './row.ts';
import type { TableRow } from './table.ts';

export interface StoredOrder {
  readonly order: Order;
  readonly state: OrderState;
}

/** An order as the rows of a file give it, complete only when nothing was refused. */
export interface OrderDraft {
  readonly id: string;
  readonly line: number;
  readonly facts: OrderRowFacts;
  /** where each SKU stands in the file */
  readonly skus: Map<string, number>;
  readonly refused: RefusedLine[];
}

/** Puts rows of the same order together, in the order in which the orders first appear. */
export class OrderGatherer {
  readonly drafts = new Map<string, OrderDraft>();
  /** rows that name no order */
  readonly homeless: RefusedLine[] = [];
  readonly #columns: ReadonlyMap<OrderField, Column>;
  readonly #width: number;
  readonly #reading: OrderReading;

  constructor(columns: ReadonlyMap<OrderField, Column>, width: number, reading: OrderReading) {
    this.#columns = columns;
    this.#width = width;
    this.#reading = reading;
  }

  take(tableRow: TableRow): void {
    const row = new RowReader(tableRow, this.#columns, this.#width);
    const id = row.needed('order', CODE_WORDS);
    if (id !== '' && !CODE.test(id)) row.refuse('order', CODE_WORDS, `"${id}"`);
    const taken = this.#reading.codes.sameAsOrder(id);
    if (taken !== null) row.refuse('order', 'a number that nothing else has', `"${id}", which is the code of ${taken}`);
    const known = this.drafts.get(id);
    const facts = readOrderRow(row, known === undefined, this.#reading);
    if (row.refused.length > 0 && !CODE.test(id)) {
      this.homeless.push(...row.refused);
      return;
    }
    if (known === undefined) {
      const skus = new Map(facts.skus.map((sku) => [sku, row.line]));
      this.drafts.set(id, { id, line: row.line, facts, skus, refused: row.refused });
      return;
    }
    this.#join(known, facts, row);
  }

  #join(draft: OrderDraft, facts: OrderRowFacts, row: RowReader<OrderField>): void {
    const asBefore = `the same as on line ${String(draft.line)}, where order ${draft.id} begins, or nothing`;
    const same = (field: OrderField, first: string | undefined, here: string | undefined): void => {
      if (here !== undefined && here !== first) row.refuse(field, asBefore, `"${here}"`);
    };
    same('buyer', draft.facts.buyer, facts.buyer);
    same('street', draft.facts.address?.join('; '), facts.address?.join('; '));
    same('postcode', draft.facts.to?.postcode, facts.to?.postcode);
    same('shipBy', draft.facts.shipBy?.instant, facts.shipBy?.instant);
    same('arriveBy', draft.facts.arriveBy?.day, facts.arriveBy?.day);
    same('service', draft.facts.service, facts.service);
    same('note', draft.facts.note, facts.note);
    for (const sku of facts.skus) {
      const before = draft.skus.get(sku);
      if (before === undefined) draft.skus.set(sku, row.line);
      else if (before !== row.line)
        row.refuse('skus', 'each piece once', `"${sku}", which line ${String(before)} has too`);
    }
    draft.refused.push(...row.refused);
  }
}

/** The finished order; fields whose column the file does not have stay as they were stored. */
export function toOrder(
  draft: OrderDraft,
  stored: Order | undefined,
  has: (field: OrderField) => boolean,
): Order | null {
  const { facts } = draft;
  if (draft.refused.length > 0 || facts.buyer === undefined || facts.to === undefined || facts.shipBy === undefined) {
    return null;
  }
  const arriveBy = has('arriveBy') ? arriveByOf(facts.arriveBy, stored?.arriveBy) : stored?.arriveBy;
  const service = has('service') ? facts.service : stored?.service;
  const paidPostage = has('paidPostage') ? facts.paidPostage : stored?.paidPostage;
  const note = has('note') ? facts.note : stored?.note;
  const hasAddress = has('street') || has('city');
  return {
    id: draft.id,
    pieces: [...draft.skus.keys()].map((sku) => ({ sku, count: 1 })),
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
