/**
 * The fewest single-letter changes, insertions, removals and swaps of neighbours that turn one word into the other
 * (optimal string alignment distance).
 */
function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, index) => index)];
  const at = (row: number, column: number): number => rows[row]?.[column] ?? Infinity;
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    rows.push(current);
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1];
      const swapped = a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      current.push(
        Math.min(
          at(row - 1, column - 1) + (same ? 0 : 1),
          at(row - 1, column) + 1,
          at(row, column - 1) + 1,
          swapped ? at(row - 2, column - 2) + 1 : Infinity,
        ),
      );
    }
  }
  return at(a.length, b.length);
}

const plain = (word: string): string => word.toLowerCase().replace(/[^a-z0-9]/g, '');

/** The known word that a mistyped one probably meant, or null when none is near. */
export function nearest(word: string, known: Iterable<string>): string | null {
  let best: string | null = null;
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of known) {
    const distance = editDistance(plain(word), plain(candidate));
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** "kind-a, kind-b or kind-c", with the nearest first when one is near, cut short when there are many. */
export function oneOf(known: Iterable<string>, word?: string): string {
  const all = [...known];
  if (all.length === 0) return 'nothing (none is defined)';
  const meant = word === undefined ? null : nearest(word, all);
  const shown = all.slice(0, 12).join(', ') + (all.length > 12 ? ` (${String(all.length)} in all)` : '');
  return `one of ${shown}${meant === null ? '' : ` (did you mean ${meant}?)`}`;
}
