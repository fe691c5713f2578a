import { diffLines } from 'diff';
import type { DiffLine } from '#shared/wire/settings.ts';

/** How many lines that are the same are shown around those that are not. */
const AROUND = 3;

/** What is different between two texts, line by line, with some lines around it. */
export function linesChanged(before: string, after: string): readonly DiffLine[] {
  let [was, is] = [0, 0];
  const all = diffLines(before, after).flatMap(({ value, added, removed }): DiffLine[] => {
    const lines = value.replace(/\r?\n$/, '').split(/\r?\n/);
    return lines.map((text): DiffLine => {
      if (removed) return { is: 'gone', text, line: ++was };
      is += 1;
      if (!added) was += 1;
      return { is: added ? 'come' : 'same', text, line: is };
    });
  });
  const near = new Set<number>();
  for (const [index, { is: what }] of all.entries()) {
    if (what === 'same') continue;
    for (let at = index - AROUND; at <= index + AROUND; at += 1) near.add(at);
  }
  return all.flatMap((line, index): DiffLine[] => {
    if (near.has(index)) return [line];
    return near.has(index - 1) && index < all.length - 1 ? [{ is: 'gap', text: '', line: line.line }] : [];
  });
}
