import { expect, it } from 'vitest';
import { rowsSorted, rowsWith, writtenOf, type DataColumn } from '#station-ui/components/table-rows.ts';

interface Shelf {
  readonly name: string;
  readonly urgency: number;
}

const STATES = ['none left', 'order now', 'enough'];
const columns: readonly DataColumn<Shelf>[] = [
  { key: 'name', title: 'supply', value: ({ name }) => name },
  {
    key: 'state',
    title: 'state',
    value: ({ urgency }) => urgency,
    written: ({ urgency }) => STATES[urgency] ?? '',
  },
];
const rows: readonly Shelf[] = [
  { name: 'Carton 9', urgency: 2 },
  { name: 'Pouch 10', urgency: 0 },
  { name: 'Carton 10', urgency: 1 },
];
const names = (found: readonly unknown[]) => found.map((row) => (row as Shelf).name);
const any = columns as unknown as readonly DataColumn<unknown>[];

it('a column that is sorted by an order is found and written by its words', () => {
  expect(names(rowsWith(rows, any, 'order carton'))).toEqual(['Carton 10']);
  expect(names(rowsWith(rows, any, 'enough'))).toEqual(['Carton 9']);
  expect(names(rowsSorted(rows, any, { by: 'state', descending: false }))).toEqual([
    'Pouch 10',
    'Carton 10',
    'Carton 9',
  ]);
  expect(rows.map((row) => columns.map((column) => writtenOf(column, row)))).toEqual([
    ['Carton 9', 'enough'],
    ['Pouch 10', 'none left'],
    ['Carton 10', 'order now'],
  ]);
  expect(names(rowsSorted(rows, any, { by: 'name', descending: false }))).toEqual([
    'Carton 9',
    'Carton 10',
    'Pouch 10',
  ]);
});
