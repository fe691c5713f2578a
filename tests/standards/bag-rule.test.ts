import { describe, expect, it } from 'vitest';
import { bagWarning } from '#shared/fitting/bag-rule.ts';
import { parseLength } from '#shared/units/length.ts';
import { demoContainers } from '#tests/support/demo-wardrobe.ts';

const inches = (value: number) => parseLength(`${value}in`);

// California Business and Professions Code 22200-22202; an opening of 5 in is the rule of other places.
describe('the warning on a film bag', () => {
  it.each([
    { width: 4, length: 8, film: 0.5, because: null },
    { width: 9, length: 4, film: 0.5, because: ['thin-and-wide', 'five-inch'] },
    { width: 12, length: 18, film: 0.8, because: ['thin-and-wide', 'thin-and-large', 'five-inch'] },
    { width: 12, length: 18, film: 1, because: ['five-inch'] },
    { width: 10, length: 13, film: 2.5, because: ['five-inch'] },
    { width: 5, length: 8, film: 2.5, because: null },
  ])('$width x $length in, $film mil of film: $because', ({ width, length, film, because }) => {
    expect(bagWarning(inches(width), inches(length), film)?.because ?? null).toEqual(because);
  });

  it.each([
    [10, 13, 10],
    [12, 18, 14],
    [19, 20.9, 14],
    [20, 20, 18],
    [24, 36, 24],
  ])('%d x %d in is printed in %d points', (width, length, points) => {
    expect(bagWarning(inches(width), inches(length), 0.8)!.points).toBe(points);
  });

  it('is why every film pouch of the demo shop carries the caution', () => {
    for (const { type, inside, cautions } of demoContainers().containers.values()) {
      const warning = type === 'pouch' && bagWarning(inside.width, inside.length, 2.5) !== null;
      expect(cautions.includes('film-bag-children')).toBe(warning);
    }
  });
});
