import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import type { ImportPreview, ImportSubject } from '#shared/wire/office.ts';
import { existingOf, type Known } from './existing.ts';
import { importOrders } from './order-import.ts';
import type { ImportRequest, ImportResult, RunningImport } from './outcome.ts';
import { importPieces } from './piece-import.ts';
import { Scratch } from './scratch.ts';
import { openTable, type Table } from './table.ts';

export type { Known } from './existing.ts';

export type FileRequest<Subject extends ImportSubject = ImportSubject> = Omit<ImportRequest<Subject>, 'existing'> & {
  readonly bytes: Uint8Array;
  readonly existing: Known;
};

/** A preview with its records in memory. */
export interface ShortResult<Stored> {
  readonly preview: Omit<ImportPreview, 'id'>;
  readonly records: readonly Stored[];
}

/**
 * What importing a short file would do, held against what lies in memory: every record as added, changed or unchanged,
 * every refused line with its reason. Stores nothing.
 * @throws ImportError for a file that is no table, has no lines or lacks a needed column
 */
export function previewImport(request: FileRequest<'pieces'>): Promise<ShortResult<Piece>>;
export function previewImport(request: FileRequest<'orders'>): Promise<ShortResult<Order>>;
export async function previewImport({
  bytes,
  ...request
}: FileRequest): Promise<ShortResult<Piece> | ShortResult<Order>> {
  const table = await openTable(bytes);
  const scratch = new Scratch(null);
  try {
    const asked = { ...request, existing: existingOf(request.existing) };
    if (asked.subject === 'pieces') return inMemory(await runImport(importPieces(asked, table, scratch), table));
    return inMemory(await runImport(importOrders(asked, table, scratch), table));
  } finally {
    scratch.close();
  }
}

function inMemory<Stored>({ preview, records }: ImportResult<Stored>): ShortResult<Stored> {
  return { preview, records: records.slice(0, records.length) };
}

/**
 * Looks through a table in short turns, so that scales and scanners are read meanwhile, and no more of it is in memory than
 * some rows.
 * @param scratch what is read goes there; the records are in it, and it is closed with them
 * @param progress is told how much is done
 * @throws ImportError like {@link previewImport}
 */
export function previewTable(
  request: ImportRequest<'pieces'>,
  table: Table,
  scratch: Scratch,
  progress?: Progress,
): Promise<ImportResult<Piece>>;
export function previewTable(
  request: ImportRequest<'orders'>,
  table: Table,
  scratch: Scratch,
  progress?: Progress,
): Promise<ImportResult<Order>>;
export async function previewTable(
  request: ImportRequest,
  table: Table,
  scratch: Scratch,
  progress?: Progress,
): Promise<ImportResult<Piece> | ImportResult<Order>> {
  return request.subject === 'pieces'
    ? runImport(importPieces(request, table, scratch), table, progress)
    : runImport(importOrders(request, table, scratch), table, progress);
}

async function runImport<Stored>(
  running: RunningImport<Stored>,
  table: Table,
  progress?: Progress,
): Promise<ImportResult<Stored>> {
  for await (const slice of table.slices()) {
    await running.take(slice);
    progress?.(READING * slice.part, 1);
  }
  return running.finish((part) => progress?.(READING + (1 - READING) * part, 1));
}

type Progress = (done: number, of: number) => void;
/** Part of the work that is reading the file. */
const READING = 0.6;
