import { tidy } from './cell.ts';

export type DecimalMark = '.' | ',';

export type PriceCell =
  | { readonly is: 'price'; readonly minor: number }
  | { readonly is: 'blank' }
  | { readonly is: 'wrong'; readonly expected: string };

const NONE = new Set(['', '-', '–', '—', '--', 'n/a', 'na', '*']);
const SIGNS: Readonly<Record<string, string>> = { $: 'USD', '€': 'EUR', '£': 'GBP' };

/**
 * What a cell of a price list says: an amount in minor units, nothing, or neither, with what would have been expected.
 * Currency signs, codes and thousands separators are taken; another currency, a third decimal or the other decimal mark
 * are not.
 */
export function readPriceCell(text: string, currency: string, mark: DecimalMark): PriceCell {
  const bare = tidy(text);
  if (NONE.has(bare.toLowerCase())) return { is: 'blank' };
  const example = mark === '.' ? '4.10' : '4,10';
  const expected = `a price such as ${example}`;
  const match = /^(?:([A-Z]{3})|([$€£]))?\s*([\d.,'’ ]+?)\s*(?:([A-Z]{3})|([$€£]))?$/.exec(bare);
  if (match === null) return { is: 'wrong', expected };
  const [, codeBefore, signBefore, digits = '', codeAfter, signAfter] = match;
  const named = [codeBefore, codeAfter, SIGNS[signBefore ?? ''], SIGNS[signAfter ?? '']].filter(
    (one) => one !== undefined,
  );
  // The dollar sign belongs to many currencies.
  const foreign = named.find(
    (one) => one !== currency && !(one === 'USD' && (signBefore ?? signAfter) === '$' && currency.endsWith('D')),
  );
  if (foreign !== undefined) return { is: 'wrong', expected: `a price in ${currency}` };
  const minor = toMinor(digits, mark);
  if (minor !== null) return { is: 'price', minor };
  const other = mark === '.' ? ',' : '.';
  const isOther = toMinor(digits, other) !== null;
  return { is: 'wrong', expected: isOther ? `${expected}; this one is written with a decimal "${other}"` : expected };
}

/** How the amounts of a table write their decimals: with a comma where some can be read only so, and none only with a point. */
export function decimalIn(table: readonly (readonly string[])[], currency: string): DecimalMark {
  const reads = (cell: string, mark: DecimalMark) => readPriceCell(cell, currency, mark).is === 'price';
  const cells = table.flat();
  const onlyAs = (mark: DecimalMark, other: DecimalMark) =>
    cells.some((cell) => reads(cell, mark) && !reads(cell, other));
  return onlyAs(',', '.') && !onlyAs('.', ',') ? ',' : '.';
}

function toMinor(digits: string, mark: DecimalMark): number | null {
  const pattern =
    mark === '.' ? /^(\d+|\d{1,3}(?:[,'’ ]\d{3})+)(?:\.(\d{1,2}))?$/ : /^(\d+|\d{1,3}(?:[.'’ ]\d{3})+)(?:,(\d{1,2}))?$/;
  const match = pattern.exec(digits);
  if (match === null) return null;
  const minor = Number(`${(match[1] ?? '').replace(/\D/g, '')}${(match[2] ?? '').padEnd(2, '0')}`);
  return Number.isSafeInteger(minor) ? minor : null;
}
