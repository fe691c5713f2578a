import type { Destination } from '#shared/rating/types.ts';
import type { OrderField } from '#shared/shop/import-fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Money } from '#shared/units/money.ts';
import { arriveByCell, localDay, type ArriveBy } from './arrive-by.ts';
import { countryCode } from './countries.ts';
import type { NameIndex } from './name-index.ts';
import { CODE, CODE_WORDS, listOf } from './pieces.ts';
import { moneyCell } from './quantities.ts';
import type { RowReader } from './row.ts';
import type { ShopCodes } from './scannable.ts';
import { shipByCell, type ShipBy } from './ship-by.ts';

export interface OrderReading {
  readonly shop: Shop;
  /** milliseconds since the epoch */
  readonly now: number;
  readonly isSku: (sku: string) => boolean;
  readonly codes: ShopCodes;
  readonly services: NameIndex;
  readonly serviceIds: readonly string[];
}

/** What one row says of its order. Only the first row of an order must say everything. */
export interface OrderRowFacts {
  readonly id: string;
  readonly skus: readonly string[];
  readonly buyer?: string;
  readonly address?: readonly string[];
  readonly to?: Destination;
  readonly shipBy?: ShipBy;
  readonly arriveBy?: ArriveBy;
  readonly service?: string;
  readonly paidPostage?: Money;
  readonly note?: string;
}

/** Reads one row; `first` is false for further rows of an order, which may leave out what the first one said. */
export function readOrderRow(row: RowReader<OrderField>, first: boolean, reading: OrderReading): OrderRowFacts {
  const { shop } = reading;
  const mark = shop.importFormats.decimalMark;
  const count = row.text('count');
  if (count !== undefined && !/^1([.,]0+)?$/.test(count)) {
    row.refuse('count', '1, since every piece is one of a kind', `"${count}"`);
  }
  const needed = (field: OrderField, expected: string): string | undefined =>
    first ? row.needed(field, expected) || undefined : row.text(field);
  const { buyer, to, address } = readAddressed(row, first, shop);
  needed('shipBy', 'a ship-by time');
  const shipBy = row.value('shipBy', (text) =>
    shipByCell(text, {
      timeZone: shop.timeZone,
      days: shop.importFormats.days,
      time: shop.importFormats.shipByTime,
      now: reading.now,
    }),
  );
  const arriveBy = readArriveBy(row, shipBy, reading);
  const service = row.value('service', (text) => {
    const id = reading.services.idOf(text);
    if (id !== undefined) return { ok: true, value: id };
    return { ok: false, expected: `a service of this shop's rate cards or nothing: ${listOf(reading.serviceIds)}` };
  });
  const paidPostage = row.value('paidPostage', (text) => moneyCell(text, shop.currency, mark));
  const note = row.lines('note');
  return {
    id: row.text('order') ?? '',
    skus: readSkus(row, reading),
    ...(buyer === undefined ? {} : { buyer }),
    ...(address.length === 0 ? {} : { address }),
    ...(to === undefined ? {} : { to }),
    ...(shipBy === undefined ? {} : { shipBy }),
    ...(arriveBy === undefined ? {} : { arriveBy }),
    ...(service === undefined ? {} : { service }),
    ...(paidPostage === undefined ? {} : { paidPostage }),
    ...(note === undefined ? {} : { note }),
  };
}

/** Whom an order goes to, and where; refused by the row where that cannot be. */
export function readAddressed(
  row: RowReader<OrderField>,
  first: boolean,
  shop: Shop,
): Pick<OrderRowFacts, 'buyer' | 'to'> & { readonly address: readonly string[] } {
  const name = 'the name of the buyer';
  const buyer = first ? row.needed('buyer', name) || undefined : row.text('buyer');
  const to = readDestination(row, first, shop);
  const address = readAddress(row, to, shop);
  return { ...(buyer === undefined ? {} : { buyer }), ...(to === undefined ? {} : { to }), address };
}

/** The day that was promised to the buyer; never before the parcel leaves. */
function readArriveBy(
  row: RowReader<OrderField>,
  shipBy: ShipBy | undefined,
  { shop, now }: OrderReading,
): ArriveBy | undefined {
  const { timeZone, importFormats } = shop;
  const arriveBy = row.value('arriveBy', (text) => arriveByCell(text, { timeZone, days: importFormats.days, now }));
  if (arriveBy === undefined || shipBy === undefined) return arriveBy;
  const leaves = localDay(shipBy.instant, timeZone);
  if (arriveBy.day < leaves) row.refuse('arriveBy', `${leaves} or later, since it may leave then`, `"${arriveBy.day}"`);
  return arriveBy;
}

/** One SKU, or several with blanks, commas, semicolons or bars between them. */
export const skusIn = (cell: string): readonly string[] => cell.split(/[\s,;|]+/).filter((sku) => sku !== '');

function readSkus(row: RowReader<OrderField>, reading: OrderReading): readonly string[] {
  const skus = skusIn(row.needed('skus', 'one or more SKUs'));
  for (const sku of skus) {
    if (!CODE.test(sku)) row.refuse('skus', CODE_WORDS, `"${sku}"`);
    else if (!reading.isSku(sku)) row.refuse('skus', 'the SKU of a piece that was imported', `"${sku}"`);
  }
  const twice = skus.find((sku, index) => skus.indexOf(sku) !== index);
  if (twice !== undefined) row.refuse('skus', 'each piece once', `"${twice}" twice on line ${String(row.line)}`);
  return skus;
}

const POSTCODES: Readonly<Record<string, { readonly pattern: RegExp; readonly words: string }>> = {
  US: {
    pattern: /^\d{5}(?:-\d{4})?$/,
    words: 'a postcode of five digits such as 02134 (a spreadsheet may have dropped a leading zero)',
  },
};
const ANY_POSTCODE = { pattern: /^[A-Z0-9][A-Z0-9 -]{1,9}$/i, words: 'a postcode of up to ten letters and digits' };

function readDestination(row: RowReader<OrderField>, first: boolean, shop: Shop): Destination | undefined {
  const country = row.value('country', (text) => {
    const code = countryCode(text);
    return code === undefined
      ? { ok: false, expected: 'a country code such as US, or its name' }
      : { ok: true, value: code };
  });
  const postcode = first ? row.needed('postcode', 'a postcode') : (row.text('postcode') ?? '');
  if (postcode === '') return undefined;
  const to = { postcode, country: country ?? shop.from.country };
  const { pattern, words } = POSTCODES[to.country] ?? ANY_POSTCODE;
  if (!pattern.test(postcode)) row.refuse('postcode', words, `"${postcode}"`);
  return to;
}

/** Street lines, then the town line in the order that the country of destination writes it, then a foreign country. */
function readAddress(row: RowReader<OrderField>, to: Destination | undefined, shop: Shop): readonly string[] {
  const lines = [row.lines('street'), row.lines('street2')].flatMap((text) => text?.split(/\s*[\r\n]+\s*/) ?? []);
  const city = row.text('city');
  if (to !== undefined && city !== undefined) {
    const region = row.text('region');
    const parts = to.country === 'US' ? [city, region, to.postcode] : [to.postcode, city, region];
    lines.push(parts.filter((part) => part !== undefined).join(' '));
    if (to.country !== shop.from.country) lines.push(to.country);
  }
  return lines.filter((line) => line !== '');
}
