import { setImmediate } from 'node:timers/promises';
import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import { importOrders } from './order-import.ts';
import type { ImportRequest, ImportResult } from './outcome.ts';
import type { ImportSubject } from '#shared/wire/office.ts';
import { importPieces } from './piece-import.ts';
import { readTable, type Table } from './table.ts';

export type { Existing, ImportRequest, ImportResult } from './outcome.ts';

export type FileRequest<Subject extends ImportSubject = ImportSubject> = ImportRequest<Subject> & {
  readonly bytes: Uint8Array;
};

/**
 * What importing a file would do: every record as added, changed or unchanged, every refused line with its reason.
 * Stores nothing.
 * @throws ImportError for a file that is no table, has no lines or lacks a needed column
 */
export function previewImport(request: FileRequest<'pieces'>): ImportResult<Piece>;
export function previewImport(request: FileRequest<'orders'>): ImportResult<Order>;
export function previewImport(request: FileRequest): ImportResult<Piece> | ImportResult<Order>;
export function previewImport({ bytes, ...request }: FileRequest): ImportResult<Piece> | ImportResult<Order> {
  const table = readTable(bytes);
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
export function previewTableInTurns(
  request: ImportRequest<'pieces'>,
  table: Table,
  progress?: Progress,
): Promise<ImportResult<Piece>>;
export function previewTableInTurns(
  request: ImportRequest<'orders'>,
  table: Table,
  progress?: Progress,
): Promise<ImportResult<Order>>;
export async function previewTableInTurns(
  request: ImportRequest,
  table: Table,
  progress?: Progress,
): Promise<ImportResult<Piece> | ImportResult<Order>> {
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
