import { loadBoxes, type Alike } from './load-boxes.ts';
import type { Lying, Sides } from './sides.ts';

/** Rounding of sums of sides, in mm. */
const ROUNDING = 1e-6;

const AXES = [0, 1, 2] as const;
type Axis = (typeof AXES)[number];

/** Boxes that the exact search takes; more are loaded in a good way, which may fail where another would not. */
export const MOST_EXACT = 4;

/** Every different way in which a box with corners may lie. */
export function anyWay([a, b, c]: Sides): Sides[] {
  const all: Sides[] = [
    [a, b, c],
    [b, a, c],
    [a, c, b],
    [c, a, b],
    [b, c, a],
    [c, b, a],
  ];
  return all.filter((one, at) => all.findIndex((other) => other.every((side, axis) => side === one[axis])) === at);
}

/** Lying flat, either way round: cloth that must not stand on its edge. */
export function flatWays([a, b, c]: Sides): Sides[] {
  return a === b
    ? [[a, b, c]]
    : [
        [a, b, c],
        [b, a, c],
      ];
}

/** `used`: how far the arrangement that was found reaches along each axis; another might reach less far. */
export type Packing =
  | { readonly verdict: 'packs'; readonly used: Sides }
  | { readonly verdict: 'does-not-pack' }
  | { readonly verdict: 'given-up' };

/** Boxes by index, the second of which begins where the first ends or later. */
type Pair = readonly [before: number, after: number];

interface Search {
  readonly boxes: readonly Lying[];
  readonly inside: Sides;
  /** how the boxes lie, in their order */
  readonly chosen: Sides[];
  /** by axis */
  readonly order: readonly [Pair[], Pair[], Pair[]];
}

/**
 * Whether boxes go into a container, exactly up to {@link MOST_EXACT}: two boxes do not overlap if and only if along some axis one ends before
 * the other begins, so every choice of axis and order for every pair is tried, and a choice is possible when the longest
 * chain along each axis is no longer than the container (S. P. Fekete and J. Schepers, "A combinatorial characterization
 * of higher-dimensional orthogonal packing", Mathematics of Operations Research 29, 2004).
 */
export function packBoxes(boxes: readonly Lying[], inside: Sides): Packing {
  const room = inside[0] * inside[1] * inside[2];
  let volume = 0;
  for (const box of boxes) {
    const first = box[0];
    if (first !== undefined) volume += first[0] * first[1] * first[2];
  }
  if (volume > room * (1 + 1e-9)) return { verdict: 'does-not-pack' };
  if (boxes.length > MOST_EXACT) return loaded(boxes, inside);
  const search: Search = { boxes, inside, chosen: [], order: [[], [], []] };
  return layNext(search) ? { verdict: 'packs', used: usedBy(search) } : { verdict: 'does-not-pack' };
}

/** Too many to try everything: whether a good way of loading finds room for all. */
function loaded(boxes: readonly Lying[], inside: Sides): Packing {
  const { blocks, left } = loadBoxes(alike(boxes), inside);
  if (left > 0) return { verdict: 'given-up' };
  const reach = (axis: Axis) =>
    Math.max(...blocks.map(({ at, sides, counts }) => at[axis] + counts[axis] * sides[axis]));
  return { verdict: 'packs', used: [reach(0), reach(1), reach(2)] };
}

/** Boxes of the very same ways to lie, counted. */
function alike(boxes: readonly Lying[]): Alike[] {
  const counted = new Map<string, { readonly ways: Lying; count: number }>();
  for (const ways of boxes) {
    const key = ways.join(' ');
    const before = counted.get(key);
    if (before === undefined) counted.set(key, { ways, count: 1 });
    else before.count += 1;
  }
  return [...counted.values()];
}

/** How far the found arrangement reaches along each axis. */
function usedBy(search: Search): Sides {
  const reach = (axis: Axis): number => {
    const starts = startsAlong(search, axis) ?? [];
    return Math.max(0, ...starts.map((start, index) => start + (search.chosen[index]?.[axis] ?? 0)));
  };
  return [reach(0), reach(1), reach(2)];
}

/** Whether two boxes, as they lie, have room behind each other along an axis. */
function goBehind(one: Sides, other: Sides, inside: Sides, axis: Axis): boolean {
  return one[axis] + other[axis] <= inside[axis] + ROUNDING;
}

/** Lays the next box in each of its ways, then parts them all. Two that have room along no axis are never parted. */
function layNext(search: Search): boolean {
  const { boxes, inside, chosen } = search;
  const box = boxes[chosen.length];
  if (box === undefined) return partNext(search, pairsToPart(search), 0);
  for (const sides of box) {
    if (AXES.some((axis) => sides[axis] > inside[axis] + ROUNDING)) continue;
    if (!chosen.every((other) => AXES.some((axis) => goBehind(other, sides, inside, axis)))) continue;
    chosen.push(sides);
    if (layNext(search)) return true;
    chosen.pop();
  }
  return false;
}

interface ToPart {
  readonly pair: Pair;
  readonly axes: readonly Axis[];
}

/** Every pair of boxes, those first that can be parted along the fewest axes: they leave the least to try. */
function pairsToPart({ chosen, inside }: Search): readonly ToPart[] {
  const all: ToPart[] = [];
  for (const [second, after] of chosen.entries()) {
    for (const [first, before] of chosen.slice(0, second).entries()) {
      all.push({ pair: [first, second], axes: AXES.filter((axis) => goBehind(before, after, inside, axis)) });
    }
  }
  return all.sort((one, other) => one.axes.length - other.axes.length);
}

function partNext(search: Search, all: readonly ToPart[], at: number): boolean {
  const next = all[at];
  if (next === undefined) return true;
  const [first, second] = next.pair;
  for (const axis of next.axes) {
    const pairs = search.order[axis];
    // The container has no left or right: for the first pair along an axis one order is as good as the other.
    const orders: readonly Pair[] = pairs.length === 0 ? [next.pair] : [next.pair, [second, first]];
    for (const pair of orders) {
      pairs.push(pair);
      if (startsAlong(search, axis) !== null && partNext(search, all, at + 1)) return true;
      pairs.pop();
    }
  }
  return false;
}

/** Where each box begins along an axis, by relaxing until nothing moves; null when one would end beyond the container. */
function startsAlong({ chosen, order, inside }: Search, axis: Axis): readonly number[] | null {
  const starts = new Array<number>(chosen.length).fill(0);
  for (let moved = true; moved;) {
    moved = false;
    for (const [before, after] of order[axis]) {
      const end = (starts[before] ?? 0) + (chosen[before]?.[axis] ?? 0);
      if (end <= (starts[after] ?? 0)) continue;
      // A circle ends here too: it only stops moving beyond the container.
      if (end + (chosen[after]?.[axis] ?? 0) > inside[axis] + ROUNDING) return null;
      starts[after] = end;
      moved = true;
    }
  }
  return starts;
}
