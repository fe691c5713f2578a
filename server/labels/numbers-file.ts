import { asScanned } from './judge.ts';
import { written } from './keep-request.ts';
import { factsOf } from './request-body.ts';
import { matchColumns } from '#server/office/imports/columns.ts';
import { RowReader } from '#server/office/imports/row.ts';
import { readTable } from '#server/office/imports/table.ts';
import { parcelKey, weighedAt, type Shipment } from '#server/office/shipments/shipments-csv.ts';
import { addLabelRequest, changeLabelRequest, labelRequestOf } from '#server/store/label-requests.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { labelIsUsed } from '#server/store/parcels.ts';
import { waitingParcels } from '#server/store/sacks.ts';
import { scanMeaning } from '#shared/codes/scan-meaning.ts';
import type { RunState } from '#shared/run/types.ts';
import { PLAIN_SHIPMENTS } from '#shared/shipments/fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { NumbersTaken } from '#shared/wire/label.ts';

const FIELDS = ['key', 'order', 'parcel', 'tracking'] as const;
type Field = (typeof FIELDS)[number];
const ALIASES: Readonly<Record<Field, readonly string[]>> = {
  key: ['reference', 'parcel key', 'referencia', 'clave'],
  order: ['order number', 'order id', 'pedido', 'número de pedido'],
  parcel: ['parcel number', 'paquete'],
  tracking: [
    'tracking number',
    'label',
    'label number',
    'parcel number of the carrier',
    'seguimiento',
    'número de seguimiento',
    'etiqueta',
  ],
};
const NUMBER = /^[\x20-\x7e]{4,64}$/;
const NUMBER_WORDS = 'a parcel number of 4 to 64 letters and digits';

export interface NumbersParts {
  /** a transaction: all lines are stored, or none */
  readonly store: StoreOrTransaction;
  readonly shop: Shop;
  /** what stands at each bench, by its id */
  readonly states: ReadonlyMap<string, RunState>;
  readonly now: number;
}

type Target =
  | { readonly at: 'bench'; readonly shipment: Shipment; readonly bench: string }
  | { readonly at: 'store'; readonly id: number; readonly label: string | null };

interface Read {
  readonly target: Target;
  readonly tracking: string;
}

/**
 * Reads back what was made from the shipments file: for each parcel, by its key or by order and parcel, the number on its
 * label. The headers that the shop gave its shipments file are known.
 * @throws ImportError when the file is no table or lacks its columns
 */
export async function takeNumbers(parts: NumbersParts, bytes: Uint8Array): Promise<NumbersTaken> {
  const table = readTable(bytes);
  const own = Object.entries((parts.shop.shipments ?? PLAIN_SHIPMENTS).columns);
  const namedFor = (field: string) => own.flatMap(([header, of]) => (of === field ? [header] : []));
  const aliases = {
    ...ALIASES,
    key: [...namedFor('key'), ...ALIASES.key],
    order: [...namedFor('order'), ...ALIASES.order],
    parcel: [...namedFor('parcel'), ...ALIASES.parcel],
    tracking: [...ALIASES.tracking, ...namedFor('label')],
  };
  const byKeyHeader = table.header.some((header) => matches(header, ['key', ...aliases.key]));
  const { byField } = matchColumns<Field>(table.header, aliases, FIELDS, [byKeyHeader ? 'key' : 'order', 'tracking']);
  const targets = await targetsOf(parts);
  const rows: RowReader<Field>[] = [];
  table.eachRow((row) => rows.push(new RowReader(row, byField, table.header.length)));
  const read: Read[] = [];
  const seen = new Map<string, number>();
  for (const row of rows) {
    const one = await readRow(parts, row, targets, seen);
    if (one !== null) read.push(one);
  }
  const refused = rows.flatMap((row) => row.refused);
  if (refused.length > 0) return { stored: false, numbers: read.length, refused };
  for (const one of read) await store(parts, one);
  return { stored: true, numbers: read.length, refused };
}

function matches(header: string, names: readonly string[]): boolean {
  return names.some((name) => name.toLowerCase() === header.trim().toLowerCase());
}

interface Targets {
  readonly byKey: ReadonlyMap<string, Target>;
  readonly byOrder: ReadonlyMap<string, readonly { readonly number: number; readonly target: Target }[]>;
}

async function targetsOf({ store, states }: NumbersParts): Promise<Targets> {
  const byKey = new Map<string, Target>();
  const byOrder = new Map<string, { number: number; target: Target }[]>();
  const add = (parcel: Shipment['parcel'], target: Target) => {
    byKey.set(parcelKey(parcel), target);
    byOrder.set(parcel.order, [...(byOrder.get(parcel.order) ?? []), { number: parcel.number, target }]);
  };
  for (const parcel of await waitingParcels(store)) add(parcel, { at: 'store', id: parcel.id, label: parcel.label });
  for (const [bench, state] of states) {
    const shipment = weighedAt(state, bench);
    if (shipment !== null) add(shipment.parcel, { at: 'bench', shipment, bench });
  }
  return { byKey, byOrder };
}

async function readRow(
  { store }: NumbersParts,
  row: RowReader<Field>,
  targets: Targets,
  seen: Map<string, number>,
): Promise<Read | null> {
  const given = row.needed('tracking', NUMBER_WORDS);
  const target = targetOf(row, targets);
  if (given === '' || target === null) return null;
  const meaning = scanMeaning(given, NOTHING_KNOWN);
  if (!NUMBER.test(given)) row.refuse('tracking', NUMBER_WORDS, `"${given}"`);
  else if (meaning.means === 'unknown' && meaning.why === 'bad-check-digit') {
    row.refuse('tracking', 'a parcel number whose check digit is right', `"${given}"`);
  }
  const tracking = asScanned(given);
  const before = seen.get(tracking);
  if (before !== undefined)
    row.refuse('tracking', `a number of its own, not that of line ${String(before)}`, `"${given}"`);
  seen.set(tracking, row.line);
  const has = await numberOf(store, target);
  if (has !== null && has !== tracking) row.refuse('tracking', `the number that this parcel has, ${has}`, `"${given}"`);
  else if (has === null && (await isTaken(store, tracking))) {
    row.refuse('tracking', 'a number that is on no other parcel', `"${given}"`);
  }
  return row.refused.length > 0 ? null : { target, tracking };
}

const NOTHING_KNOWN = { isSku: () => false, isContainer: () => false, isOrder: () => false, staffByBadge: () => null };

function targetOf(row: RowReader<Field>, { byKey, byOrder }: Targets): Target | null {
  const key = row.text('key');
  if (key !== undefined) {
    // A request that replaced another has its count behind the parcel's own key.
    const found = byKey.get(key.replace(/\/\d+$/, ''));
    if (found === undefined) row.refuse('key', 'the key of a parcel that was weighed and has not left', `"${key}"`);
    return found ?? null;
  }
  const order = row.needed('order', 'an order, or a parcel by its key');
  if (order === '') return null;
  const all = byOrder.get(order) ?? [];
  const number = row.text('parcel');
  const fitting = number === undefined ? all : all.filter((each) => String(each.number) === number);
  if (fitting.length === 1) return fitting[0]?.target ?? null;
  if (all.length === 0) row.refuse('order', 'an order with a parcel that was weighed and has not left', `"${order}"`);
  else
    row.refuse(
      number === undefined ? 'order' : 'parcel',
      'which parcel of the order, by its number or key',
      `"${number ?? order}"`,
    );
  return null;
}

async function numberOf(store: StoreOrTransaction, target: Target): Promise<string | null> {
  if (target.at === 'store') return target.label;
  const { run, number } = target.shipment.parcel;
  const request = await labelRequestOf(store, run, number);
  return request?.state === 'answered' ? request.tracking : null;
}

async function isTaken(store: StoreOrTransaction, tracking: string): Promise<boolean> {
  if (await labelIsUsed(store, tracking)) return true;
  const row = await store.selectFrom('label_request').select('id').where('tracking', '=', tracking).executeTakeFirst();
  return row !== undefined;
}

async function store(parts: NumbersParts, { target, tracking }: Read): Promise<void> {
  const { now, shop } = parts;
  if (target.at === 'store') {
    await parts.store.updateTable('parcel').set({ label: tracking }).where('id', '=', target.id).execute();
    return;
  }
  const { run, number, order } = target.shipment.parcel;
  const request = await labelRequestOf(parts.store, run, number);
  if (request !== null && request.state !== 'unused' && request.state !== 'withdrawn') {
    const change = { state: 'answered', tracking, why: 'file', answer: '', ended_at: now } as const;
    await changeLabelRequest(parts.store, request.id, change);
    return;
  }
  const facts = factsOf(target.shipment);
  const key = request === null ? facts.key : `${facts.key}/${String(request.id)}f`;
  const { body } = await written({ store: parts.store, shop }, facts);
  const made = { key, run, number, order, bench: target.bench, facts: JSON.stringify(facts), body };
  await addLabelRequest(parts.store, { ...made, state: 'answered', why: 'file', tracking, now });
}
