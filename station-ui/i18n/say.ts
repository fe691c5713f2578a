import type { Values } from './words.ts';

/** The first of the named values that is there and not empty, or ''. */
export function one(values: Values, ...names: readonly string[]): string {
  for (const name of names) {
    const value = values[name];
    if (value !== undefined && value !== '') return value;
  }
  return '';
}

/** `before + value + after` when the value is there, else ''. */
export function ifThere(value: string, before: string, after = ''): string {
  return value === '' ? '' : `${before}${value}${after}`;
}

/** " (1 of 2)" where more than one of a piece is due. */
export function ofSeveral(values: Values, of: string): string {
  const due = one(values, 'due');
  return due === '' || due === '1' ? '' : ` (${one(values, 'count')} ${of} ${due})`;
}
