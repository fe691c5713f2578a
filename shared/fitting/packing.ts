import { loadBoxes, type Alike } from './load-boxes.ts';
import type { Lying, Sides } from './sides.ts';

/** Rounding of sums of sides, in mm. */
const ROUNDING = 1e-6;

/** Boxes that the exact search takes; more are loaded in a good way, which may fail where another would not. */
export const MOST_EXACT = 4;

/** Search steps after which the question is left open; four boxes need far fewer. */
const MOST_STEPS = 20_000;

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

interface Search {
  readonly boxes: readonly Lying[];
  readonly inside: Sides;
  readonly chosen: Sides[];
  /** by axis, pairs [before, after]: the second box begins where the first ends or later */
  readonly order: [number, number][][];
  steps: number;
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
  const search: Search = { boxes, inside, chosen: [], order: [[], [], []], steps: 0 };
  if (placeNext(search)) return { verdict: 'packs', used: usedBy(search) };
  return { verdict: search.steps > MOST_STEPS ? 'given-up' : 'does-not-pack' };
}

/** Too many to try everything: whether a good way of loading finds room for all. */
function loaded(boxes: readonly Lying[], inside: Sides): Packing {
  const { blocks, left } = loadBoxes(alike(boxes), inside);
  if (left > 0) return { verdict: 'given-up' };
  const reach = (axis: 0 | 1 | 2) =>
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
function usedBy({ chosen, order }: Search): Sides {
  const reach = (axis: 0 | 1 | 2): number => {
    const starts = new Array<number>(chosen.length).fill(0);
    let farthest = 0;
    for (let round = 0; round <= chosen.length; round += 1) {
      for (const [before, after] of order[axis] ?? []) {
        starts[after] = Math.max(starts[after] ?? 0, (starts[before] ?? 0) + (chosen[before]?.[axis] ?? 0));
      }
    }
    for (const [index, sides] of chosen.entries()) farthest = Math.max(farthest, (starts[index] ?? 0) + sides[axis]);
    return farthest;
  };
  return [reach(0), reach(1), reach(2)];
}

function placeNext(search: Search): boolean {
  const box = search.boxes[search.chosen.length];
  if (box === undefined) return true;
  for (const sides of box) {
    if (sides.some((side, axis) => side > (search.inside[axis] ?? 0) + ROUNDING)) continue;
    search.chosen.push(sides);
    if (separate(search, 0)) return true;
    search.chosen.pop();
    if (search.steps > MOST_STEPS) return false;
  }
  return false;
}

/** Parts the newest box from every earlier one, beginning with `from`; then goes on to the next box. */
function separate(search: Search, from: number): boolean {
  const newest = search.chosen.length - 1;
  if (from >= newest) return placeNext(search);
  for (const [axis, pairs] of search.order.entries()) {
    // The container has no left or right: for the first pair one order is as good as the other.
    for (const pair of newest === 1
      ? [[from, newest]]
      : [
          [from, newest],
          [newest, from],
        ]) {
      search.steps += 1;
      if (search.steps > MOST_STEPS) return false;
      pairs.push(pair as [number, number]);
      if (chainFits(search, axis) && separate(search, from + 1)) return true;
      pairs.pop();
    }
  }
  return false;
}

/** The longest chain of boxes along an axis, by relaxing until nothing moves; a circle never ends within the container. */
function chainFits({ chosen, order, inside }: Search, axis: number): boolean {
  const pairs = order[axis] ?? [];
  const room = (inside[axis] ?? 0) + ROUNDING;
  const starts = new Array<number>(chosen.length).fill(0);
  for (let round = 0; round <= chosen.length; round += 1) {
    let moved = false;
    for (const [before, after] of pairs) {
      const end = (starts[before] ?? 0) + (chosen[before]?.[axis] ?? 0);
      if (end > (starts[after] ?? 0)) {
        if (end + (chosen[after]?.[axis] ?? 0) > room) return false;
        starts[after] = end;
        moved = true;
      }
    }
    if (!moved) return true;
  }
  return false;
}
