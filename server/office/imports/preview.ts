import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import { ORDER_FIELDS, PIECE_FIELDS, type OrderField, type PieceField } from '#shared/shop/import-fields.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportedLine, ImportPreview, ImportSubject, RefusedLine } from '#shared/wire/office.ts';
import { matchColumns } from './columns.ts';
import { changesBetween } from './compare.ts';
import { refuseHeldPieces } from './held-pieces.ts';
import { ORDER_NEEDS, type OrderReading } from './order-rows.ts';
import { OrderGatherer, orderTexts, toOrder, type StoredOrder } from './orders.ts';
import { NameIndex, PIECE_NEEDS, pieceReading, pieceTexts, readPiece, withStored } from './pieces.ts';
import { RowReader } from './row.ts';
import { readTable, type Table } from './table.ts';

/** What the store has already. */
export interface Existing {
  readonly pieces: ReadonlyMap<string, Piece>;
  readonly orders: ReadonlyMap<string, StoredOrder>;
}

export interface ImportRequest<Subject extends ImportSubject = ImportSubject> {
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly subject: Subject;
  readonly shop: Shop;
  readonly existing: Existing;
  /** milliseconds since the epoch */
  readonly now: number;
}

export interface ImportResult<Stored> {
  readonly preview: Omit<ImportPreview, 'id'>;
  /** what was added or changed, ready to store; nothing of a refused record */
  readonly records: readonly Stored[];
}

/**
 * What importing a file would do: every record as added, changed or unchanged, every refused line with its reason.
 * Stores nothing.
 * @throws ImportError for a file that is no table, has no lines or lacks a needed column
 */
export function previewImport(request: ImportRequest<'pieces'>): ImportResult<Piece>;
export function previewImport(request: ImportRequest<'orders'>): ImportResult<Order>;
export function previewImport(request: ImportRequest): ImportResult<Piece> | ImportResult<Order>;
export function previewImport(request: ImportRequest): ImportResult<Piece> | ImportResult<Order> {
  return request.subject === 'pieces' ? previewPieces(request) : previewOrders(request);
}

/** Sorts records into what they would do. */
class Outcome<Stored> {
  readonly records: Stored[] = [];
  readonly added: ImportedLine[] = [];
  readonly changed: ImportedLine[] = [];
  readonly refused: RefusedLine[] = [];
  unchanged = 0;

  sort(line: Omit<ImportedLine, 'changes'>, record: Stored, changes: ImportedLine['changes'] | null): void {
    if (changes?.length === 0) {
      this.unchanged += 1;
      return;
    }
    this.records.push(record);
    if (changes === null) this.added.push({ ...line, changes: [] });
    else this.changed.push({ ...line, changes });
  }

  result(request: ImportRequest, table: Table, columns: ImportPreview['columns']): ImportResult<Stored> {
    const preview = {
      subject: request.subject,
      file: request.fileName,
      encoding: table.encoding,
      delimiter: table.delimiter,
      columns,
      added: this.added,
      changed: this.changed,
      unchanged: this.unchanged,
      refused: this.refused.sort((a, b) => a.line - b.line),
    };
    return { preview, records: this.records };
  }
}

function previewPieces(request: ImportRequest): ImportResult<Piece> {
  const { shop, existing } = request;
  const table = readTable(request.bytes);
  const columns = matchColumns<PieceField>(table.header, shop.importAliases.pieces, PIECE_FIELDS, PIECE_NEEDS);
  const reading = pieceReading(shop);
  const outcome = new Outcome<Piece>();
  const lineOf = new Map<string, number>();
  table.eachRow((tableRow) => {
    const row = new RowReader(tableRow, columns.byField, table.header.length);
    const sku = row.text('sku');
    const before = sku === undefined ? undefined : lineOf.get(sku);
    if (before !== undefined)
      row.refuse('sku', 'each SKU once', `"${sku ?? ''}", which line ${String(before)} has too`);
    else if (sku !== undefined) lineOf.set(sku, row.line);
    const read = readPiece(row, reading);
    if (read === null) {
      outcome.refused.push(...row.refused);
      return;
    }
    const stored = existing.pieces.get(read.sku);
    const piece = stored === undefined ? read : withStored(read, stored, (field) => columns.byField.has(field));
    const changes = stored === undefined ? null : changesBetween(pieceTexts(stored, shop), pieceTexts(piece, shop));
    outcome.sort({ line: row.line, id: piece.sku, summary: `${piece.title} (${piece.kind})` }, piece, changes);
  });
  return outcome.result(request, table, columns.all);
}

function previewOrders(request: ImportRequest): ImportResult<Order> {
  const { shop, existing } = request;
  const table = readTable(request.bytes);
  const columns = matchColumns<OrderField>(table.header, shop.importAliases.orders, ORDER_FIELDS, ORDER_NEEDS);
  const services = shop.rates.cards.flatMap((card) => card.services);
  const reading: OrderReading = {
    shop,
    now: request.now,
    isSku: (sku) => existing.pieces.has(sku),
    services: new NameIndex(services.map(({ id, name }) => ({ id, names: Object.values(name) }))),
    serviceIds: [...new Set(services.map(({ id }) => id))],
  };
  const gatherer = new OrderGatherer(columns.byField, table.header.length, reading);
  table.eachRow((row) => gatherer.take(row));
  const skuHeader = columns.byField.get('skus')?.header ?? null;
  refuseHeldPieces(gatherer.drafts, existing.orders, skuHeader);

  const outcome = new Outcome<Order>();
  outcome.refused.push(...gatherer.homeless);
  for (const draft of gatherer.drafts.values()) {
    const stored = existing.orders.get(draft.id);
    const order = toOrder(draft, stored?.order, (field) => columns.byField.has(field));
    if (order === null) {
      outcome.refused.push(...draft.refused);
      continue;
    }
    const changes =
      stored === undefined ? null : changesBetween(orderTexts(stored.order, shop), orderTexts(order, shop));
    if (changes !== null && changes.length > 0 && stored?.state !== 'open' && stored?.state !== 'set-aside') {
      const found = `order ${draft.id}, which is ${STATE_WORDS[stored?.state ?? 'packing']} (${changes.map((each) => each.field).join(', ')} would change)`;
      const column = columns.byField.get('order')?.header ?? null;
      outcome.refused.push({ line: draft.line, column, expected: 'an order that is not yet packed', found });
      continue;
    }
    const count = order.pieces.length;
    const summary = `${order.buyer}, ${order.to.postcode}: ${String(count)} ${count === 1 ? 'piece' : 'pieces'}`;
    outcome.sort({ line: draft.line, id: order.id, summary }, order, changes);
  }
  return outcome.result(request, table, columns.all);
}

const STATE_WORDS: Readonly<Record<string, string>> = {
  packing: 'being packed',
  packed: 'packed',
  cancelled: 'cancelled',
};
