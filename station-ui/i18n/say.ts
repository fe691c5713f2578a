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
