import { readFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { badInput } from './cli-error.ts';
import type { Surroundings } from './command.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { previewImport, type Existing } from '#server/office/imports/preview.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportSubject, RefusedLine } from '#shared/wire/office.ts';

/** The records of a file, and a line for everything in it that was refused. */
export interface Imported<Record> {
  readonly records: readonly Record[];
  readonly complaints: readonly string[];
}

const NOTHING: Existing = { pieces: new Map(), orders: new Map() };

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

function imported<Record>(
  path: string,
  preview: () => {
    readonly records: readonly Record[];
    readonly preview: { readonly refused: readonly RefusedLine[] };
  },
): Imported<Record> {
  try {
    const result = preview();
    return { records: result.records, complaints: result.preview.refused.map((line) => complaint(path, line)) };
  } catch (error) {
    if (!isImportError(error)) throw error;
    badInput(`${path}${error.line === null ? '' : `:${error.line}`}  ${error.message}`);
  }
}

function request<Subject extends ImportSubject>(
  subject: Subject,
  path: string,
  shop: Shop,
  surroundings: Surroundings,
) {
  const bytes = bytesOf(path, surroundings);
  return { bytes, fileName: basename(path), subject, shop, existing: NOTHING, now: surroundings.now };
}

/** @throws CliError with exit 1 when the file is no table of pieces */
export function importPieces(path: string, shop: Shop, surroundings: Surroundings): Imported<Piece> {
  const asked = request('pieces', path, shop, surroundings);
  return imported(path, () => previewImport(asked));
}

/** @throws CliError with exit 1 when the file is no table of orders */
export function importOrders(
  path: string,
  pieces: ReadonlyMap<string, Piece>,
  shop: Shop,
  surroundings: Surroundings,
): Imported<Order> {
  const asked = { ...request('orders', path, shop, surroundings), existing: { ...NOTHING, pieces } };
  return imported(path, () => previewImport(asked));
}
