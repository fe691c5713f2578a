import { ORDER_FIELDS, PIECE_FIELDS, type OrderField, type PieceField } from '#shared/shop/import-fields.ts';
import type { ImportSubject } from '#shared/wire/office.ts';

/** What fills one of our fields: a column of their file, or always the same text. */
export type FieldFrom =
  | {
      /** counted from 0 in the source's header, since two columns may be headed alike */
      readonly column: number;
      /** of its numbers, where the header names none: "g", "cm" */
      readonly unit?: string;
    }
  | { readonly constant: string };

/** How the files of one place are read, once somebody has said so. */
export interface SourceMapping {
  /** as the owner calls it: "market stall list" */
  readonly name: string;
  readonly subject: ImportSubject;
  /** the header row by which its files are recognised */
  readonly header: readonly string[];
  /** our field -> where it comes from; a field that is not named stays empty */
  readonly fields: Readonly<Record<string, FieldFrom>>;
  /** null: as the shop's other files */
  readonly decimalMark: 'point' | 'comma' | null;
  /** how a day is written, such as DD/MM/YYYY; null: as in the shop's other files */
  readonly days: string | null;
}

export interface ImportSource extends SourceMapping {
  readonly id: number;
  /** epoch ms */
  readonly changedAt: number;
  readonly usedAt: number | null;
}

export const NEEDED_FIELDS: {
  readonly pieces: readonly PieceField[];
  readonly orders: readonly OrderField[];
} = { pieces: ['sku', 'kind'], orders: ['order', 'skus', 'buyer', 'postcode', 'shipBy'] };

export const IMPORT_FIELDS: {
  readonly pieces: readonly PieceField[];
  readonly orders: readonly OrderField[];
} = { pieces: PIECE_FIELDS, orders: ORDER_FIELDS };

/** Units that a column of a field may be in; a field that is not here has none. */
export const FIELD_UNITS: Readonly<Record<string, readonly string[]>> = {
  mass: ['g', 'kg', 'oz', 'lb'],
  width: ['cm', 'mm', 'in'],
  length: ['cm', 'mm', 'in'],
  sleeveLength: ['cm', 'mm', 'in'],
  inseam: ['cm', 'mm', 'in'],
  height: ['cm', 'mm', 'in'],
};

/** Orders of day, month and year that a source can be said to write. */
export const DAY_ORDERS = ['DD/MM/YYYY', 'MM/DD/YYYY', 'DD.MM.YYYY', 'DD-MM-YYYY', 'YYYY/MM/DD'] as const;
