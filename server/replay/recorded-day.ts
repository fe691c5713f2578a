import type SqliteDatabase from 'better-sqlite3';
import { z } from 'zod';
import { instantOf } from '#server/office/local-time.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import { COMMANDS } from '#shared/run/commands.ts';
import { SET_ASIDE_REASONS, type RunInput } from '#shared/run/types.ts';
import { toGrams } from '#shared/units/mass.ts';

/** What a packer did, without whom it was for. */
const act = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('order'), order: z.string() }),
  z.strictObject({
    do: z.literal('command'),
    command: z.enum(COMMANDS),
    reason: z.enum(SET_ASIDE_REASONS).exactOptional(),
  }),
  z.strictObject({ do: z.literal('piece'), sku: z.string() }),
  z.strictObject({ do: z.literal('container'), container: z.string() }),
  z.strictObject({ do: z.literal('label') }),
  z.strictObject({ do: z.literal('weigh'), grams: z.number() }),
]);
const recordedAct = z.strictObject({ at: z.number().min(0), bench: z.int().min(1), act });
const recordedPiece = z.strictObject({ piece: z.record(z.string(), z.string()) });
const recordedOrder = z.strictObject({ order: z.record(z.string(), z.union([z.string(), z.array(z.string())])) });
const heading = z.strictObject({ version: z.literal(1), day: z.string(), acts: z.int() });

export type Act = z.output<typeof act>;
export type RecordedAct = z.output<typeof recordedAct>;
export interface RecordedDay {
  readonly day: string;
  readonly pieces: readonly Readonly<Record<string, string>>[];
  readonly orders: readonly Readonly<Record<string, string | readonly string[]>>[];
  readonly acts: readonly RecordedAct[];
}

interface Row {
  readonly bench: string;
  readonly body: string;
  readonly at: number;
}

/**
 * A day of a store as it can be given away: what was done when at which bench, and the orders and pieces that it was done to,
 * renamed, without titles, buyers, streets, notes, staff and label numbers. Postcodes stay, since prices depend on them.
 * @param day of the shop, "2026-11-25"
 */
export function recordDay(file: SqliteDatabase.Database, day: string, timeZone: string): RecordedDay {
  const [year = 0, month = 0, date = 0] = day.split('-').map(Number);
  const begins = instantOf({ year, month, day: date, hour: 0, minute: 0 }, timeZone);
  const ends = instantOf({ year, month, day: date + 1, hour: 0, minute: 0 }, timeZone);
  const rows = file
    .prepare<[number, number], Row>(
      'SELECT bench, body, at FROM input WHERE at >= ? AND at < ? ORDER BY at, bench, seq',
    )
    .all(begins, ends);
  const names = new Names();
  const acts: RecordedAct[] = [];
  const taken = new Map<string, Order>();
  const lastOf = new Map<string, number>();
  for (const { bench, body, at } of rows) {
    const input = JSON.parse(body) as RunInput;
    if (input.type === 'order-taken') {
      taken.set(input.order.id, input.order);
      // What took it, whatever that was, becomes the order's own scan.
      const before = lastOf.get(bench) ?? -1;
      const asked = acts[before];
      if (asked !== undefined) acts[before] = { ...asked, act: { do: 'order', order: names.order(input.order.id) } };
      continue;
    }
    const did = actOf(input, names);
    if (did === null) continue;
    lastOf.set(bench, acts.length);
    acts.push({ at: at - begins, bench: names.bench(bench), act: did });
  }
  const piece = file.prepare<[string], { readonly body: string }>('SELECT body FROM piece WHERE sku = ?');
  const skus = new Set([...taken.values()].flatMap(({ pieces }) => pieces.map(({ sku }) => sku)));
  const pieces = [...skus].flatMap((sku) => {
    const row = piece.get(sku);
    return row === undefined ? [] : [plainPiece(JSON.parse(row.body) as Piece, names)];
  });
  const orders = [...taken.values()].map((order) => plainOrder(order, names));
  return { day, pieces, orders, acts };
}

/** Numbers in the order of their coming, in the place of names. */
class Names {
  readonly #known = new Map<string, number>();

  #number(kind: string, name: string): number {
    const key = `${kind} ${name}`;
    const number =
      this.#known.get(key) ?? [...this.#known.keys()].filter((each) => each.startsWith(`${kind} `)).length + 1;
    this.#known.set(key, number);
    return number;
  }

  bench(name: string): number {
    return this.#number('bench', name);
  }

  order(id: string): string {
    return `9${String(this.#number('order', id)).padStart(6, '0')}`;
  }

  sku(sku: string): string {
    return `REC-${String(this.#number('sku', sku)).padStart(6, '0')}`;
  }
}

function actOf(input: RunInput, names: Names): Act | null {
  if (input.type === 'command') {
    const { command, reason } = input;
    return { do: 'command', command, ...(reason === undefined ? {} : { reason }) };
  }
  if (input.type === 'reading') return { do: 'weigh', grams: toGrams(input.reading.mass) };
  if (input.type !== 'scan') return null;
  const { meaning } = input;
  switch (meaning.means) {
    case 'piece':
      return { do: 'piece', sku: names.sku(meaning.sku) };
    case 'container':
      return { do: 'container', container: meaning.container };
    case 'label':
      return { do: 'label' };
    case 'order':
      return { do: 'order', order: names.order(meaning.order) };
    case 'command':
      return { do: 'command', command: meaning.command };
    default:
      return null;
  }
}

function plainPiece({ sku, kind, size, cloth, mass }: Piece, names: Names): Record<string, string> {
  return {
    sku: names.sku(sku),
    title: kind,
    kind,
    ...(size === undefined ? {} : { size }),
    ...(cloth === undefined ? {} : { cloth }),
    ...(mass === undefined ? {} : { mass: `${toGrams(mass).toFixed(2)} g` }),
  };
}

function plainOrder({ id, pieces, to, service }: Order, names: Names): Record<string, string | readonly string[]> {
  return {
    order: names.order(id),
    skus: pieces.flatMap(({ sku, count }) => Array.from({ length: count }, () => names.sku(sku))),
    buyer: 'A Buyer',
    street: '1 Any Street',
    city: 'Any Town',
    postcode: to.postcode,
    country: to.country,
    shipBy: '+1d 16:00',
    ...(service === undefined ? {} : { service }),
  };
}

/** One line a record, the heading first. */
export function linesOf({ day, pieces, orders, acts }: RecordedDay): string {
  const lines: object[] = [{ version: 1, day, acts: acts.length }];
  lines.push(...pieces.map((piece) => ({ piece })), ...orders.map((order) => ({ order })), ...acts);
  return lines.map((line) => `${JSON.stringify(line)}\n`).join('');
}

/** A file that is no recorded day. `message` names the line. */
export class RecordedDayError extends Error {
  override readonly name = 'RecordedDayError';
}

/** @throws RecordedDayError */
export function readDay(text: string): RecordedDay {
  const lines = text.split('\n').filter((line) => line !== '');
  const parsed = lines.map((line, index): unknown => {
    try {
      return JSON.parse(line);
    } catch {
      throw new RecordedDayError(`line ${String(index + 1)}: expected JSON, found something else`);
    }
  });
  const head = heading.safeParse(parsed[0]);
  if (!head.success) throw new RecordedDayError('line 1: expected the heading of a recorded day');
  const day = {
    day: head.data.day,
    pieces: [] as Record<string, string>[],
    orders: [] as RecordedDay['orders'][number][],
    acts: [] as RecordedAct[],
  };
  for (const [index, line] of parsed.slice(1).entries()) {
    const read = z.union([recordedPiece, recordedOrder, recordedAct]).safeParse(line);
    if (!read.success) {
      throw new RecordedDayError(
        `line ${String(index + 2)}: expected a piece, an order or what was done, found something else`,
      );
    }
    if ('piece' in read.data) day.pieces.push(read.data.piece);
    else if ('order' in read.data) day.orders.push(read.data.order);
    else day.acts.push(read.data);
  }
  if (day.acts.length !== head.data.acts) {
    throw new RecordedDayError(
      `expected ${String(head.data.acts)} acts, found ${String(day.acts.length)}: the file is cut off`,
    );
  }
  return day;
}
