import type { Piece } from '#shared/garments/types.ts';
import type { PieceField } from '#shared/shop/import-fields.ts';
import { columnsFor } from './columns-for.ts';
import { changesBetween } from './compare.ts';
import { Outcome, type ImportRequest, type RunningImport } from './outcome.ts';
import { pieceReading, pieceTexts, readPiece, withStored } from './pieces.ts';
import { RowReader } from './row.ts';
import { ShopCodes } from './scannable.ts';
import type { Scratch } from './scratch.ts';
import type { Table } from './table.ts';

/** @throws ImportError columns-missing or columns-twice */
export function importPieces(request: ImportRequest, table: Table, scratch: Scratch): RunningImport<Piece> {
  const { shop, existing } = request;
  const columns = columnsFor(request, table, 'pieces');
  const reading = pieceReading(shop, request.language);
  const outcome = new Outcome<Piece>(scratch);
  let orders: ReadonlySet<string> = new Set();
  const codes = new ShopCodes(shop, {
    isOrder: (code) => orders.has(code),
    isSku: () => false,
  });

  const takeRow = (row: RowReader<PieceField>, pieces: ReadonlyMap<string, Piece>): void => {
    const sku = row.text('sku');
    const before = sku === undefined ? undefined : lineOf(sku, row.line);
    if (before !== undefined) {
      row.refuse('sku', 'each SKU once', `"${sku ?? ''}", which line ${String(before)} has too`);
    }
    const taken = sku === undefined || pieces.has(sku) ? null : codes.insteadOfPiece(sku);
    if (taken !== null) row.refuse('sku', 'a code that scans as a piece', `"${sku ?? ''}", which scans as ${taken}`);
    const read = readPiece(row, reading);
    if (read === null) {
      outcome.refuse(row.refused);
      return;
    }
    const stored = pieces.get(read.sku);
    const piece = stored === undefined ? read : withStored(read, stored, (field) => columns.byField.has(field));
    const changes = stored === undefined ? null : changesBetween(pieceTexts(stored, shop), pieceTexts(piece, shop));
    outcome.sort({ line: row.line, id: piece.sku, summary: `${piece.title} (${piece.kind})` }, piece, changes);
  };

  /** The line where a SKU stood before; it is kept with this one where it is new. */
  const lineOf = (sku: string, line: number): number | undefined => {
    const before = scratch.get<{ line: number }>('select line from seen where key = ?', sku)?.line;
    if (before === undefined) scratch.run('insert into seen (key, line) values (?, ?)', sku, line);
    return before;
  };

  return {
    take: async ({ rows }) => {
      const readers = rows.map((row) => new RowReader(row, columns.byField, table.header.length));
      const skus = readers.map((row) => row.peek('sku')).filter((sku) => sku !== '');
      const pieces = await existing.pieces(skus);
      orders = await existing.orderIds(skus.flatMap((sku) => codes.ordersAskedFor(sku)));
      for (const row of readers) takeRow(row, pieces);
    },
    finish: () => Promise.resolve(outcome.result(request, table, columns.all)),
  };
}
