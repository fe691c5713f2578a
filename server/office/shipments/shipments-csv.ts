import { finishedParcel } from '#server/runs/finished-parcel.ts';
import { findOrder } from '#server/store/orders.ts';
import { findPieces } from '#server/store/pieces.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import type { FinishedParcel } from '#server/store/parcels.ts';
import { waitingParcels } from '#server/store/sacks.ts';
import type { Piece } from '#shared/garments/types.ts';
import { parcelHere } from '#shared/run/here.ts';
import type { RunState } from '#shared/run/types.ts';
import { customsGaps, customsLines, goesAbroad } from '#shared/labels/customs.ts';
import { PLAIN_SHIPMENTS, type ShipmentField } from '#shared/shipments/fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { formatLength, lengthFromMillimetres } from '#shared/units/length.ts';
import { addMass, massDigits, massFromBase } from '#shared/units/mass.ts';
import type { CustomsLine } from '#shared/wire/label.ts';
import { csvText } from '#shared/words/csv.ts';

export interface Shipment {
  readonly parcel: FinishedParcel;
  readonly label: string | null;
  /** what each of its pieces is expected to weigh, by SKU */
  readonly grams: Readonly<Record<string, number>>;
}

/** Names a parcel and nothing else, the same in every file and message. */
export function parcelKey({ order, run, number }: Pick<FinishedParcel, 'order' | 'run' | 'number'>): string {
  return `${order}-${run}-${String(number)}`;
}

/** The parcel at a bench that was weighed and waits for its label; null where there is none. */
export function weighedAt(state: RunState, bench: string): Shipment | null {
  const { at } = state.step;
  const here = parcelHere(state);
  if ((at !== 'seal' && at !== 'label') || here === undefined) return null;
  const grams = Object.fromEntries(here.pieces.map(({ piece, mass }) => [piece.sku, mass.mean]));
  return { parcel: finishedParcel(state, state.parcel, bench).parcel, label: null, grams };
}

/**
 * Every parcel that was weighed and has not left, as a file for whoever makes labels or customs papers; columns as the shop's
 * files name them.
 * @param states what stands at each bench, by its id
 */
export async function shipmentsCsv(
  store: StoreOrTransaction,
  shop: Shop,
  states: ReadonlyMap<string, RunState>,
): Promise<string> {
  const { columns } = shop.shipments ?? PLAIN_SHIPMENTS;
  const weighed = [...states].flatMap(([bench, state]) => weighedAt(state, bench) ?? []);
  const labelled = (await waitingParcels(store)).map((parcel): Shipment => ({
    parcel,
    label: parcel.label,
    grams: {},
  }));
  const rows: Readonly<Record<ShipmentField, string>>[] = [];
  for (const [state, all] of [
    ['weighed', weighed],
    ['labelled', labelled],
  ] as const) {
    for (const shipment of all) rows.push(await rowOf(store, shop, shipment, state));
  }
  return csvText(
    Object.keys(columns),
    rows.map((row) => Object.values(columns).map((field) => row[field])),
  );
}

async function rowOf(
  store: StoreOrTransaction,
  shop: Shop,
  { parcel, label, grams }: Shipment,
  state: 'weighed' | 'labelled',
): Promise<Readonly<Record<ShipmentField, string>>> {
  const order = (await findOrder(store, parcel.order))?.order;
  const found = await findPieces(store, parcel.pieces);
  const pieces = parcel.pieces.flatMap((sku) => found.get(sku) ?? []);
  const size = sizeOf(parcel, shop);
  const mass = addMass(massFromBase(parcel.reading), massFromBase(parcel.toCome));
  const lines = customsLines(parcel.pieces, found, shop, grams);
  const abroad = order !== undefined && goesAbroad(order, shop);
  const gaps = abroad ? customsGaps(lines, (sku) => found.get(sku)?.title ?? sku) : [];
  const listed = (texts: readonly string[]) => [...new Set(texts.filter((text) => text !== ''))].join('; ');
  return {
    key: parcelKey(parcel),
    order: parcel.order,
    parcel: String(parcel.number),
    parcels: String(parcel.of),
    state,
    buyer: order?.buyer ?? '',
    street: (order?.address ?? []).join(', '),
    postcode: parcel.postcode,
    country: order?.to.country ?? '',
    carrier: parcel.carrier,
    service: parcel.service,
    container: parcel.container,
    length: size[0] ?? '',
    width: size[1] ?? '',
    height: size[2] ?? '',
    sizeUnit: shop.units.length,
    mass: massDigits(mass, shop.units.mass, 2),
    massUnit: shop.units.mass,
    postage: (parcel.owed.minor / 100).toFixed(2),
    label: label ?? '',
    contents: listed(lines.map(({ contents }) => contents)),
    value: valueOf(pieces),
    currency: shop.currency,
    netMass: netMassOf(lines),
    origin: listed(lines.map(({ origin }) => origin ?? '')),
    hsCode: listed(lines.map(({ hsCode }) => hsCode ?? '')),
    missing: gaps.map(({ sku, missing }) => `${sku}: ${missing.join(', ')}`).join('; '),
  };
}

/** What all the pieces weigh; empty where nothing is known of one. */
function netMassOf(lines: readonly CustomsLine[]): string {
  if (lines.some(({ mass }) => mass === null)) return '';
  return lines.reduce((sum, { mass }) => sum + Number(mass?.amount ?? 0), 0).toFixed(2);
}

/** Longest first; the empty container where its filled size was not kept. */
export function sizeOf({ filled }: FinishedParcel, shop: Shop): readonly string[] {
  if (filled === undefined) return [];
  const { length: unit } = shop.units;
  return [filled.length, filled.width, filled.thickness]
    .sort((a, b) => b - a)
    .map((side) => formatLength(lengthFromMillimetres(side), unit, unit === 'mm' ? 0 : 1).split(' ')[0] ?? '');
}

/** What all the pieces are worth; empty where one of them has no value. */
function valueOf(pieces: readonly Piece[]): string {
  const values = pieces.flatMap(({ value }) => (value === undefined ? [] : [value.minor]));
  if (values.length < pieces.length || values.length === 0) return '';
  return (values.reduce((sum, each) => sum + each, 0) / 100).toFixed(2);
}
