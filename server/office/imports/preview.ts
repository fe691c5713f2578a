import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import { importOrders } from './order-import.ts';
import type { ImportRequest, ImportResult } from './outcome.ts';
import { importPieces } from './piece-import.ts';
import { readTable } from './table.ts';

export type { Existing, ImportRequest, ImportResult } from './outcome.ts';

/**
 * What importing a file would do: every record as added, changed or unchanged, every refused line with its reason.
 * Stores nothing.
 * @throws ImportError for a file that is no table, has no lines or lacks a needed column
 */
export function previewImport(request: ImportRequest<'pieces'>): ImportResult<Piece>;
export function previewImport(request: ImportRequest<'orders'>): ImportResult<Order>;
export function previewImport(request: ImportRequest): ImportResult<Piece> | ImportResult<Order>;
export function previewImport(request: ImportRequest): ImportResult<Piece> | ImportResult<Order> {
  const table = readTable(request.bytes);
  const running = request.subject === 'pieces' ? importPieces(request, table) : importOrders(request, table);
  table.eachRow(running.take);
  return running.finish();
}

/**
 * The same in short turns, so that scales and scanners are read while a long file is looked through.
 * @throws ImportError like {@link previewImport}
 */
export function previewImportInTurns(request: ImportRequest<'pieces'>): Promise<ImportResult<Piece>>;
export function previewImportInTurns(request: ImportRequest<'orders'>): Promise<ImportResult<Order>>;
export function previewImportInTurns(request: ImportRequest): Promise<ImportResult<Piece> | ImportResult<Order>>;
export async function previewImportInTurns(request: ImportRequest): Promise<ImportResult<Piece> | ImportResult<Order>> {
  const table = readTable(request.bytes);
  const running = request.subject === 'pieces' ? importPieces(request, table) : importOrders(request, table);
  await table.eachRowInTurns(running.take);
  return running.finish();
}
