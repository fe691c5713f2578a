import type { Alike } from '#shared/fitting/load-boxes.ts';
import type { Sides } from '#shared/fitting/sides.ts';

/**
 * Boxes for one container in the style of the sets BR1 to BR7: E. E. Bischoff and M. S. W. Ratcliff, "Issues in the
 * development of approaches to container loading", Omega 23 (1995), the procedure recalled from memory and written anew,
 * with a random sequence of our own: the container is 587 x 233 x 220 cm; a set has 3, 5, 8, 10, 12, 15 or 20 kinds of box
 * with sides of 30 to 120, 25 to 100 and 20 to 80 cm; a side may stand upright when it is less than twice the least of the
 * other two; boxes of random kinds are added as long as all together are no larger than the container.
 */
export const CONTAINER: Sides = [587, 233, 220];
export const KINDS_OF_SET = [3, 5, 8, 10, 12, 15, 20] as const;

const LEAST: Sides = [30, 25, 20];
const MOST: Sides = [120, 100, 80];
const STEADY = 2;

/** The ways in which a box may lie, by which of its sides stands upright. */
function waysOf([a, b, c]: Sides): Sides[] {
  const upright = [
    [a, b, c],
    [a, c, b],
    [b, c, a],
  ] as const;
  return upright
    .filter(([x, y, z]) => z / Math.min(x, y) < STEADY)
    .flatMap(([x, y, z]): Sides[] => [
      [x, y, z],
      [y, x, z],
    ]);
}

export function boxesInStyleOf(kinds: number, uniform: () => number): Alike[] {
  const between = (least: number, most: number) => least + Math.floor(uniform() * (most - least + 1));
  const sides = Array.from({ length: kinds }, (): Sides => [
    between(LEAST[0], MOST[0]),
    between(LEAST[1], MOST[1]),
    between(LEAST[2], MOST[2]),
  ]);
  const counts = sides.map(() => 0);
  let room = CONTAINER[0] * CONTAINER[1] * CONTAINER[2];
  for (;;) {
    const kind = Math.floor(uniform() * kinds);
    const [a, b, c] = sides[kind] ?? LEAST;
    if (a * b * c > room) break;
    room -= a * b * c;
    counts[kind] = (counts[kind] ?? 0) + 1;
  }
  return sides.map((each, kind) => ({ ways: waysOf(each), count: counts[kind] ?? 0 }));
}
