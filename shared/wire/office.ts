import type { Role } from '#shared/access/roles.ts';
import type { ConfigProblem } from './rates.ts';
import type { AddressDoubt } from '#shared/addresses/types.ts';
import type { OrderState } from '#shared/planning/types.ts';
import type { Localised } from '#shared/words/language.ts';

export type ImportSubject = 'pieces' | 'orders';

/** A line that was refused: where, what was expected and what was there. */
export interface RefusedLine {
  /** line of the file, counted from 1, where the record starts */
  readonly line: number;
  /** header of the column as the file has it, or null when the whole line is wrong */
  readonly column: string | null;
  readonly expected: string;
  readonly found: string;
}

/** One record that would be stored, as the owner recognises it. */
export interface ImportedLine {
  readonly line: number;
  readonly id: string;
  readonly summary: string;
  /** for a changed record: what differs */
  readonly changes: readonly { readonly field: string; readonly before: string; readonly after: string }[];
  /** for an order: what to ask about its address; it is stored all the same */
  readonly doubts?: readonly AddressDoubt[];
}

/** What an import would do. Nothing is stored until it is applied by its id. */
export interface ImportPreview {
  readonly id: string;
  readonly subject: ImportSubject;
  readonly file: string;
  readonly encoding: 'utf-8' | 'windows-1252' | 'utf-16le' | 'utf-16be';
  readonly delimiter: ',' | ';' | '\t';
  /** which column of the file is taken for which field */
  readonly columns: readonly { readonly header: string; readonly field: string | null }[];
  /** the source by whose mapping it was read; null where its columns' names were enough */
  readonly source: string | null;
  readonly added: readonly ImportedLine[];
  readonly changed: readonly ImportedLine[];
  readonly unchanged: number;
  readonly refused: readonly RefusedLine[];
  /** how many there are of each; of many, only the first are listed above */
  readonly counts: { readonly added: number; readonly changed: number; readonly refused: number };
}

/** A line of the answer to a long request that was asked for as `application/x-ndjson`; the last has no progress. */
export type ProgressLine<Answer> =
  | { readonly progress: { readonly done: number; readonly of: number } }
  | { readonly answer: Answer }
  | { readonly failed: OfficeError };

export interface ImportApplied {
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
  readonly refused: number;
}

/** A row of the office's order table. */
export interface OrderRow {
  readonly id: string;
  readonly buyer: string;
  readonly pieces: number;
  readonly shipBy: string;
  readonly state: OrderState;
  readonly bench: string | null;
  readonly reason: string | null;
  /** of its last parcel */
  readonly container: Localised | null;
  readonly service: Localised | null;
}

export const ORDER_SORTINGS = ['id', 'buyer', 'shipBy', 'state'] as const;
/** What the orders can be put in order by. */
export type OrderSorting = (typeof ORDER_SORTINGS)[number];

export interface OrderQuestion {
  /** words of an order; empty for all */
  readonly text: string;
  readonly state: OrderState | null;
  readonly by: OrderSorting;
  readonly descending: boolean;
  readonly from: number;
  readonly count: number;
}

/** Rows of the orders from a place on, with how many there are. */
export interface OrderPage {
  readonly rows: readonly OrderRow[];
  readonly from: number;
  /** how many the text and the state leave */
  readonly matching: number;
  /** there are others with the text, older than the ones that were looked at */
  readonly more: boolean;
  readonly all: number;
  readonly counts: Readonly<Record<OrderState, number>>;
  /** the shop's, in which its times are meant */
  readonly timeZone: string;
}

export interface OfficeError {
  readonly error: string;
  readonly message: string;
  /** what is wrong in the shop's files, where that is why */
  readonly problems?: readonly ConfigProblem[];
}

/**
 * HTTP contract of the office:
 * POST /api/imports/:subject/preview  body: the file's bytes, header `x-file-name`  -> ImportPreview
 * POST /api/imports/:id/apply -> ImportApplied
 * GET  /api/orders?text&state&by&descending&from&count -> OrderPage
 * GET  /api/exports/parcels.csv
 * GET  /api/benches -> { id, name }[]
 * GET  /api/who -> PersonRow[]
 * Every failure answers 4xx/5xx with OfficeError.
 */
export interface BenchRow {
  readonly id: string;
  readonly name: string;
}

/** Somebody who works here. */
export interface PersonRow {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
}
