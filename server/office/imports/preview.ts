import { setImmediate } from 'node:timers/promises';
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
  const finishing = running.finishing();
  for (;;) {
    const { done, value } = finishing.next();
    if (done === true) return value;
  }
}

/**
 * The same in short turns, so that scales and scanners are read while a long file is looked through.
 * @param progress is told how much is done
 * @throws ImportError like {@link previewImport}
 */
export function previewImportInTurns(
  request: ImportRequest<'pieces'>,
  progress?: Progress,
): Promise<ImportResult<Piece>>;
export function previewImportInTurns(
  request: ImportRequest<'orders'>,
  progress?: Progress,
): Promise<ImportResult<Order>>;
export async function previewImportInTurns(
  request: ImportRequest,
  progress?: Progress,
): Promise<ImportResult<Piece> | ImportResult<Order>> {
  const table = readTable(request.bytes);
  const running = request.subject === 'pieces' ? importPieces(request, table) : importOrders(request, table);
  await table.eachRowInTurns(running.take, (done, of) => progress?.(READING * (done / of), 1));
  await request.existing.lookUp?.(running.named());
  const finishing = running.finishing();
  for (;;) {
    const { done, value } = finishing.next();
    if (done === true) return value;
    progress?.(READING + (1 - READING) * value, 1);
    await setImmediate();
  }
}

type Progress = (done: number, of: number) => void;
/** Part of the work that is reading the file. */
const READING = 0.7;
