import { defuse } from './formula-cells.ts';

/** A cell of a table file: a number is written as it is, a text that a spreadsheet would run is marked. */
export type CsvCell = string | number | null;

const NUMBER = /^-?\d+(?:\.\d+)?$/;

function cellText(cell: CsvCell): string {
  if (cell === null) return '';
  // A plain number, however it is written, is none that a spreadsheet would run.
  const text = typeof cell === 'number' || NUMBER.test(cell) ? String(cell) : defuse(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A table for a spreadsheet: UTF-8 with a byte order mark, comma, CRLF; RFC 4180 otherwise. */
export function csvText(header: readonly string[], rows: readonly (readonly CsvCell[])[]): string {
  const lines = [header, ...rows].map((row) => row.map(cellText).join(','));
  return `\ufeff${lines.join('\r\n')}\r\n`;
}
