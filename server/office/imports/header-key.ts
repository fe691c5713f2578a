import { plainWords } from './plain-words.ts';

/**
 * What a file is recognised by: its columns' names without case, accents and punctuation. Columns without a name at the end
 * are what a spreadsheet adds by itself.
 */
export function headerKey(header: readonly string[]): string {
  const names = header.map(plainWords);
  while (names.at(-1) === '') names.pop();
  return JSON.stringify(names);
}
