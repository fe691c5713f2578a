import type { Piece } from '#shared/garments/types.ts';
import { columnsFor } from './columns-for.ts';
import { changesBetween } from './compare.ts';
import { Outcome, type ImportRequest, type RunningImport } from './outcome.ts';
import { pieceReading, pieceTexts, readPiece, withStored } from './pieces.ts';
import { RowReader } from './row.ts';
import { ShopCodes } from './scannable.ts';
import type { Table } from './table.ts';

/** @throws ImportError columns-missing or columns-twice */
export function importPieces(request: ImportRequest, table: Table): RunningImport<Piece> {
  const { shop, existing } = request;
  const columns = columnsFor(request, table, 'pieces');
  const reading = pieceReading(shop);
  const outcome = new Outcome<Piece>();
  const codes = new ShopCodes(shop, existing.known?.isOrder ?? ((code) => existing.orders.has(code)), (code) =>
    existing.pieces.has(code),
  );
  const lineOf = new Map<string, number>();
  return {
    take: (tableRow) => {
      const row = new RowReader(tableRow, columns.byField, table.header.length);
      const sku = row.text('sku');
      const before = sku === undefined ? undefined : lineOf.get(sku);
      if (sku !== undefined && before !== undefined) {
        row.refuse('sku', 'each SKU once', `"${sku}", which line ${String(before)} has too`);
      } else if (sku !== undefined) lineOf.set(sku, row.line);
      const taken = sku === undefined || existing.pieces.has(sku) ? null : codes.insteadOfPiece(sku);
      if (taken !== null) row.refuse('sku', 'a code that scans as a piece', `"${sku ?? ''}", which scans as ${taken}`);
      const read = readPiece(row, reading);
      if (read === null) {
        outcome.refused.push(...row.refused);
        return;
      }
      const stored = existing.pieces.get(read.sku);
      const piece = stored === undefined ? read : withStored(read, stored, (field) => columns.byField.has(field));
      const changes = stored === undefined ? null : changesBetween(pieceTexts(stored, shop), pieceTexts(piece, shop));
      outcome.sort({ line: row.line, id: piece.sku, summary: `${piece.title} (${piece.kind})` }, piece, changes);
    },
    named: () => ({ orders: [], skus: [] }),
    finishing: function* () {
      yield 1;
      return outcome.result(request, table, columns.all);
    },
  };
}
