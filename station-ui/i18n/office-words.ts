import type { OrderState } from '#shared/planning/types.ts';
import type { ImportSubject, OrderRow } from '#shared/wire/office.ts';
import type { RatesWords } from './rates-words.ts';

/** The parts of the office, as its header lists them. */
export const OFFICE_PARTS = [
  'orders',
  'day',
  'import',
  'rates',
  'what-fits',
  'labels',
  'hand-over',
  'supplies',
  'money',
  'learned',
  'people',
  'access',
  'devices',
  'backups',
  'voices',
  'settings',
  'first-hour',
  'inside',
] as const;
export type OfficePart = (typeof OFFICE_PARTS)[number];

/** What the office page says. */
export interface OfficeWords {
  readonly title: string;
  readonly parts: Readonly<Record<OfficePart, string>>;
  readonly partsOfOffice: string;
  readonly rates: RatesWords;
  readonly orders: string;
  readonly columns: Readonly<Record<keyof OrderRow, string>>;
  readonly states: Readonly<Record<OrderState, string>>;
  readonly anyState: string;
  readonly filter: string;
  readonly filterHint: string;
  readonly shown: (shown: number, all: number) => string;
  readonly noneMatch: string;
  readonly noOrders: string;
  readonly refresh: string;
  readonly loading: string;
  readonly late: string;
  readonly sortedUp: string;
  readonly sortedDown: string;
  readonly overdue: (parcels: number) => string;
  readonly short: (supplies: number) => string;
  readonly labelsNeed: (labels: number) => string;
  readonly benches: string;
  readonly openBench: (name: string) => string;
  readonly exportParcels: string;
  readonly importTitle: string;
  readonly subjects: Readonly<Record<ImportSubject, string>>;
  readonly subject: string;
  readonly chooseFile: string;
  readonly dropHere: string;
  readonly reading: (file: string) => string;
  readonly preview: (file: string) => string;
  readonly nothingStoredYet: string;
  readonly format: (encoding: string, delimiter: string) => string;
  readonly delimiters: Readonly<Record<',' | ';' | '\t', string>>;
  readonly understood: string;
  readonly header: string;
  readonly takenFor: string;
  readonly notTaken: string;
  readonly added: (count: number) => string;
  readonly changed: (count: number) => string;
  readonly unchanged: (count: number) => string;
  readonly refused: (count: number) => string;
  readonly line: string;
  readonly record: string;
  readonly column: string;
  readonly wholeLine: string;
  readonly expected: string;
  readonly found: string;
  readonly nothingThere: string;
  readonly field: string;
  readonly before: string;
  readonly after: string;
  readonly more: (count: number) => string;
  readonly storing: string;
  readonly store: (count: number) => string;
  readonly refusedStayOut: string;
  readonly nothingToStore: string;
  readonly putAway: string;
  readonly stored: (added: number, changed: number, unchanged: number, refused: number) => string;
  readonly failed: (message: string) => string;
  readonly noServer: string;
}
