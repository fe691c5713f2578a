import type { FoldedBlock } from '#shared/folding/types.ts';
import { CERTAIN, scoreOf } from './normal.ts';
import { anyWay, flatWays, MOST_EXACT, packBoxes } from './packing.ts';
import type { Sides } from './sides.ts';
import { FOLD_SPREAD, type Stack } from './stack.ts';
import type { Wrap } from './types.ts';

/** Soft pieces lie in at most two piles side by side; the ways to share out more than this many are too many. */
const MOST_IN_PILES = 10;

/** An arrangement in a carton: how far it reaches along width, length and depth, and in how many piles. */
export interface Arrangement {
  readonly used: Sides;
  readonly piles: number;
  /** least margin in standard deviations */
  readonly score: number;
}

/** Heights of pieces as they lie, wrapped, with the variance of each. */
interface Heights {
  readonly height: (block: FoldedBlock) => number;
  readonly variance: (block: FoldedBlock) => number;
}

function heightsOf(wrap: Wrap, pressed: boolean): Heights {
  return {
    height: (block) => (pressed ? block.pressedThickness : block.thickness) + wrap.thickness,
    variance: ({ thicknessSd, thickness, pressedThickness }) =>
      (pressed ? (thicknessSd * pressedThickness) / thickness : thicknessSd) ** 2,
  };
}

/** Cheap reasons why no two piles can do: half the height is too high, or the narrowest sides are too wide together. */
function mayStandInTwo(blocks: readonly FoldedBlock[], inside: Sides, heights: Heights): boolean {
  let height = 0;
  let narrowest = Infinity;
  let widest = 0;
  for (const block of blocks) {
    height += heights.height(block);
    const short = Math.min(block.width, block.length);
    narrowest = Math.min(narrowest, short);
    widest = Math.max(widest, short);
  }
  return height / 2 <= inside[2] && narrowest + widest <= Math.max(inside[0], inside[1]);
}

interface Pile {
  short: number;
  long: number;
  height: number;
  variance: number;
}

function emptied(pile: Pile): void {
  pile.short = 0;
  pile.long = 0;
  pile.height = 0;
  pile.variance = 0;
}

/**
 * The two piles, side by side along the width or the length, that close most surely; exact over every way to share out
 * the pieces, all of a pile lying the same way round. Null when no two piles go in.
 */
function twoPiles(blocks: readonly FoldedBlock[], inside: Sides, heights: Heights, sideSd: number): Arrangement | null {
  const count = blocks.length;
  if (count > MOST_IN_PILES || !mayStandInTwo(blocks, inside, heights)) return null;
  const one: Pile = { short: 0, long: 0, height: 0, variance: 0 };
  const other: Pile = { short: 0, long: 0, height: 0, variance: 0 };
  let best: Arrangement | null = null;
  // The first piece is in the first pile: the piles have no names.
  for (let share = 1; share < 1 << (count - 1); share += 1) {
    emptied(one);
    emptied(other);
    for (let index = 0; index < count; index += 1) {
      const block = blocks[index];
      if (block === undefined) continue;
      const into = index > 0 && ((share >> (index - 1)) & 1) === 1 ? other : one;
      into.short = Math.max(into.short, Math.min(block.width, block.length));
      into.long = Math.max(into.long, Math.max(block.width, block.length));
      into.height += heights.height(block);
      into.variance += heights.variance(block);
    }
    const depth = Math.max(one.height, other.height);
    if (depth > inside[2]) continue;
    const upright = Math.min(
      scoreOf(inside[2] - one.height, Math.sqrt(one.variance)),
      scoreOf(inside[2] - other.height, Math.sqrt(other.variance)),
    );
    if (best !== null && upright <= best.score) continue;
    const footprint = sideBySide(one, other, inside);
    if (footprint === null) continue;
    const flat = scoreOf(Math.min(inside[0] - footprint[0], inside[1] - footprint[1]), sideSd);
    const score = Math.min(upright, flat);
    if (best === null || score > best.score) best = { used: [footprint[0], footprint[1], depth], piles: 2, score };
  }
  return best;
}

/** The footprint of two piles beside each other, every way round, that leaves the most room; null when none goes in. */
function sideBySide(one: Pile, other: Pile, inside: Sides): readonly [number, number] | null {
  let best: readonly [number, number] | null = null;
  let most = -Infinity;
  for (let way = 0; way < 8; way += 1) {
    const [oneX, oneY] = (way & 1) === 0 ? [one.short, one.long] : [one.long, one.short];
    const [otherX, otherY] = (way & 2) === 0 ? [other.short, other.long] : [other.long, other.short];
    const across = (way & 4) === 0;
    const x = across ? oneX + otherX : Math.max(oneX, otherX);
    const y = across ? Math.max(oneY, otherY) : oneY + otherY;
    const spare = Math.min(inside[0] - x, inside[1] - y);
    if (spare >= 0 && spare > most) {
      most = spare;
      best = [x, y];
    }
  }
  return best;
}

/** Margins that the exact search tries, in standard deviations. */
const MARGINS = [1, 2, 3, 4.5, CERTAIN] as const;

/**
 * Rigid things any way up, soft ones flat; exact for a few. More than a few are loaded in a good way when all are rigid; with
 * soft ones among them they lie in piles, since a good way may fail where another would not, and of a soft piece each fold
 * is compared. Its score is the greatest of some margins at which
 * everything still goes in with every size larger by that many standard deviations: growing never raises it.
 */
function exactly(blocks: readonly FoldedBlock[], inside: Sides, heights: Heights): Arrangement | null {
  if (blocks.length > MOST_EXACT && blocks.some(({ soft }) => soft)) return null;
  const packingWith = (margin: number) =>
    packBoxes(
      blocks.map((block) => {
        const more = block.soft ? margin * FOLD_SPREAD : 0;
        const height = heights.height(block) + margin * Math.sqrt(heights.variance(block));
        const sides: Sides = [block.width + more, block.length + more, height];
        return block.soft ? flatWays(sides) : anyWay(sides);
      }),
      inside,
    );
  const packing = packingWith(0);
  if (packing.verdict !== 'packs') return null;
  let score = 0;
  for (const margin of MARGINS) {
    if (packingWith(margin).verdict !== 'packs') break;
    score = margin;
  }
  return { used: packing.used, piles: 1, score };
}

/**
 * An arrangement of pieces in a carton other than one pile: rigid things exactly, any way up, with soft ones flat among
 * them; or any in two piles; whichever closes more surely. Null when none was found.
 */
export function arrange(
  blocks: readonly FoldedBlock[],
  wrap: Wrap,
  inside: Sides,
  stack: Stack,
  pressed: boolean,
): Arrangement | null {
  const heights = heightsOf(wrap, pressed);
  const piles = twoPiles(blocks, inside, heights, stack.sideSd);
  const exact = stack.soft ? null : exactly(blocks, inside, heights);
  if (piles === null || exact === null) return piles ?? exact;
  return piles.score > exact.score ? piles : exact;
}
