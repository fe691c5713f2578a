import type { FoldedBlock } from '#shared/folding/types.ts';
import { anyWay, flatWays, packBoxes, type Sides } from './packing.ts';
import type { Wrap } from './types.ts';

/** Soft pieces lie in at most two piles side by side; the ways to share out more than this many are too many. */
const MOST_IN_PILES = 10;

/** Boxes that the exact search takes; more are packed in piles or not at all. */
const MOST_EXACT = 5;

/** An arrangement in a carton: how far it reaches along width, length and depth, and in how many piles. */
export interface Arrangement {
  readonly used: Sides;
  readonly piles: number;
}

function heightOf(block: FoldedBlock, wrap: Wrap, pressed: boolean): number {
  return (pressed ? block.pressedThickness : block.thickness) + wrap.thickness;
}

/**
 * The two piles, side by side along the width or the length, whose higher one is lowest; exact over every way to share
 * out the pieces, each lying the same way round as its pile. Null when no two piles stand in the carton's footprint.
 */
function twoPiles(blocks: readonly FoldedBlock[], wrap: Wrap, inside: Sides, pressed: boolean): Arrangement | null {
  const count = blocks.length;
  if (count < 2 || count > MOST_IN_PILES) return null;
  let best: Arrangement | null = null;
  // The first piece is in the first pile: the piles have no names.
  for (let share = 1; share < 1 << (count - 1); share += 1) {
    const piles = [pile(), pile()] as const;
    for (let index = 0; index < count; index += 1) {
      const block = blocks[index];
      if (block === undefined) continue;
      const into = piles[index > 0 && ((share >> (index - 1)) & 1) === 1 ? 1 : 0];
      into.short = Math.max(into.short, Math.min(block.width, block.length));
      into.long = Math.max(into.long, Math.max(block.width, block.length));
      into.height += heightOf(block, wrap, pressed);
    }
    const depth = Math.max(piles[0].height, piles[1].height);
    if (best !== null && depth >= best.used[2]) continue;
    const footprint = sideBySide(piles[0], piles[1], inside);
    if (footprint !== null) best = { used: [footprint[0], footprint[1], depth], piles: 2 };
  }
  return best;
}

interface Pile {
  short: number;
  long: number;
  height: number;
}

function pile(): Pile {
  return { short: 0, long: 0, height: 0 };
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

/** Rigid things any way up, soft ones flat; exact for a few. */
function exactly(blocks: readonly FoldedBlock[], wrap: Wrap, inside: Sides, pressed: boolean): Arrangement | null {
  if (blocks.length > MOST_EXACT) return null;
  const boxes = blocks.map((block) => {
    const sides: Sides = [block.width, block.length, heightOf(block, wrap, pressed)];
    return block.soft ? flatWays(sides) : anyWay(sides);
  });
  const packing = packBoxes(boxes, inside);
  return packing.verdict === 'packs' ? { used: packing.used, piles: 1 } : null;
}

/**
 * An arrangement of pieces that do not go into a carton as one pile: rigid things exactly, any way up, with soft ones
 * flat among them; only soft ones in two piles. Null when none was found.
 */
export function arrange(
  blocks: readonly FoldedBlock[],
  wrap: Wrap,
  inside: Sides,
  pressed: boolean,
): Arrangement | null {
  const rigid = blocks.some((block) => !block.soft);
  if (rigid) {
    const exact = exactly(blocks, wrap, inside, pressed);
    if (exact !== null) return exact;
  }
  const piles = twoPiles(blocks, wrap, inside, pressed);
  return piles !== null && piles.used[2] <= inside[2] ? piles : null;
}
