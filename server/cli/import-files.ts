import { readFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { badInput } from './cli-error.ts';
import type { Surroundings } from './command.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { lookAt } from '#server/office/imports/look.ts';
import { shopFor } from '#server/office/imports/mapped-columns.ts';
import { previewImport, type FileRequest, type Known, type ShortResult } from '#server/office/imports/preview.ts';
import { readTable } from '#server/office/imports/table.ts';
import type { ImportSource } from '#shared/imports/source.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportSubject, RefusedLine } from '#shared/wire/office.ts';

/** The records of a file, and a line for everything in it that was refused. */
export interface Imported<Record> {
  readonly records: readonly Record[];
  readonly complaints: readonly string[];
}

const NOTHING: Known = { pieces: new Map(), orders: new Map() };

function complaint(file: string, { line, column, expected, found }: RefusedLine): string {
  return `${file}:${line}  ${column === null ? '' : `${column}: `}expected ${expected}; found ${found}`;
}

function bytesOf(path: string, { workingFolder }: Surroundings): Buffer {
  try {
    return readFileSync(resolve(workingFolder, path));
  } catch (error) {
    badInput(`${path}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

async function imported<Record>(path: string, preview: () => Promise<ShortResult<Record>>): Promise<Imported<Record>> {
  try {
    const result = await preview();
    return { records: result.records, complaints: result.preview.refused.map((line) => complaint(path, line)) };
  } catch (error) {
    if (!isImportError(error)) throw error;
    const at = error.line === null ? '' : `:${String(error.line)}`;
    badInput(`${path}${at}  ${error.message.replace(/^line \d+: /, '')}`);
  }
}

function request<Subject extends ImportSubject>(
  subject: Subject,
  path: string,
  shop: Shop,
  surroundings: Surroundings,
  sources: readonly ImportSource[],
): () => FileRequest<Subject> {
  const bytes = bytesOf(path, surroundings);
  return () => {
    const { source } = lookAt(readTable(bytes), shop, sources).readings[subject];
    const read = { shop: shopFor(shop, source), source, existing: NOTHING, now: surroundings.now };
    return { bytes, fileName: basename(path), subject, ...read };
  };
}

/** @throws CliError with exit 1 when the file is no table of pieces */
export function importPieces(
  path: string,
  shop: Shop,
  surroundings: Surroundings,
  sources: readonly ImportSource[],
): Promise<Imported<Piece>> {
  const asked = request('pieces', path, shop, surroundings, sources);
  return imported(path, () => previewImport(asked()));
}

/** @throws CliError with exit 1 when the file is no table of orders */
export function importOrders(
  path: string,
  pieces: ReadonlyMap<string, Piece>,
  shop: Shop,
  surroundings: Surroundings,
  sources: readonly ImportSource[],
): Promise<Imported<Order>> {
  const asked = request('orders', path, shop, surroundings, sources);
  return imported(path, () => previewImport({ ...asked(), existing: { ...NOTHING, pieces } }));
}
