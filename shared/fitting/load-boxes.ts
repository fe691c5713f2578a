import type { Lying, Sides } from './sides.ts';

/** Boxes of one size, as every way in which one of them may lie. */
export interface Alike {
  readonly ways: Lying;
  readonly count: number;
}

/** Boxes of one size and way beside, behind and on each other, from a corner in mm. */
export interface PlacedBlock {
  /** index among the boxes asked for */
  readonly of: number;
  readonly at: Sides;
  /** of one box */
  readonly sides: Sides;
  readonly counts: Sides;
}

export interface Loaded {
  readonly blocks: readonly PlacedBlock[];
  /** boxes that found no room */
  readonly left: number;
  /** in mm3, of the boxes that did */
  readonly volume: number;
}

/** A cuboid of room: from one corner to the opposite one. */
interface Space {
  readonly from: Sides;
  readonly to: Sides;
}

/** How the next block is chosen: the one of most volume, or the one that leaves least room beside it. */
type Liking = 'volume' | 'fit';
/** Which room is filled first: the one nearest to a corner of the container, or the lowest. */
type Turn = 'corner' | 'lowest';

const STRATEGIES: readonly (readonly [Liking, Turn])[] = [
  ['volume', 'lowest'],
  ['fit', 'lowest'],
  ['volume', 'corner'],
  ['fit', 'corner'],
];

/** Rounding of sums of sides, in mm. */
const ROUNDING = 1e-6;

/** Whether a volume is more than another: products of the same sides are only the same within their rounding. */
const isMore = (volume: number, than: number) => volume > than * (1 + 1e-9);

const volumeOf = ([a, b, c]: Sides) => a * b * c;

/**
 * Loads as much as it can of some boxes into a container: a good way, not proven the best.
 *
 * Room is kept as the largest cuboids that are empty, which may overlap; block after block of like boxes goes into a corner
 * of one of them: F. Parreno, R. Alvarez-Valdes, J. M. Tamarit and J. F. Oliveira, "A maximal-space algorithm for the
 * container loading problem", INFORMS Journal on Computing 20 (2008), its constructive phase. Four ways of choosing are
 * tried; the one that loads the most volume counts. Nothing is said of what carries what.
 */
export function loadBoxes(boxes: readonly Alike[], inside: Sides): Loaded {
  const all = boxes.reduce((sum, { count }) => sum + count, 0);
  let best: Loaded = { blocks: [], left: all, volume: 0 };
  for (const [liking, turn] of STRATEGIES) {
    const loaded = loadOnce(boxes, inside, liking, turn);
    if (isMore(loaded.volume, best.volume)) best = loaded;
    if (best.left === 0) break;
  }
  return best;
}

function loadOnce(boxes: readonly Alike[], inside: Sides, liking: Liking, turn: Turn): Loaded {
  const left = boxes.map(({ count }) => count);
  const blocks: PlacedBlock[] = [];
  let volume = 0;
  let spaces: Space[] = [{ from: [0, 0, 0], to: inside }];
  while (spaces.length > 0) {
    const space = nextSpace(spaces, inside, turn);
    const block = bestBlock(boxes, left, space, liking);
    if (block === null) {
      spaces = spaces.filter((each) => each !== space);
      continue;
    }
    const placed = { ...block, at: cornerFor(block, space, inside, turn) };
    const count = volumeOf(block.counts);
    left[block.of] = (left[block.of] ?? 0) - count;
    volume += count * volumeOf(block.sides);
    blocks.push(placed);
    spaces = without(spaces, placed);
  }
  return { blocks, left: left.reduce((sum, count) => sum + count, 0), volume };
}

const AXES = [0, 1, 2] as const;

/** Distances of a space from the nearest corner of the container, the least first; or from its bottom, back and left. */
function placeOf({ from, to }: Space, inside: Sides, turn: Turn): Sides {
  if (turn === 'lowest') return [from[2], from[1], from[0]];
  const [a, b, c] = AXES.map((axis) => Math.min(from[axis], inside[axis] - to[axis])).sort((x, y) => x - y);
  return [a ?? 0, b ?? 0, c ?? 0];
}

/** The room to fill next; of two that are as near the larger one. */
function nextSpace(spaces: readonly Space[], inside: Sides, turn: Turn): Space {
  const rooms = spaces.map((space) => ({
    space,
    place: placeOf(space, inside, turn),
    size: volumeOf(sizeOf(space)),
  }));
  return rooms.reduce((best, each) => {
    if (isLess(each.place, best.place)) return each;
    return isMore(each.size, best.size) && !isLess(best.place, each.place) ? each : best;
  }).space;
}

function sizeOf({ from, to }: Space): Sides {
  return [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
}

/** In which order the axes are filled with boxes. */
const ORDERS = [
  [0, 1, 2],
  [0, 2, 1],
  [1, 0, 2],
  [1, 2, 0],
  [2, 0, 1],
  [2, 1, 0],
] as const;

type Block = Omit<PlacedBlock, 'at'>;

function bestBlock(boxes: readonly Alike[], left: readonly number[], space: Space, liking: Liking): Block | null {
  const room = sizeOf(space);
  let best: Block | null = null;
  let most = 0;
  let least: Sides = [Infinity, Infinity, Infinity];
  for (const [of, { ways }] of boxes.entries()) {
    const count = left[of] ?? 0;
    if (count === 0) continue;
    for (const sides of ways) {
      const may = AXES.map((axis) => Math.floor((room[axis] + ROUNDING) / sides[axis]));
      if (may.some((each) => each === 0)) continue;
      for (const order of ORDERS) {
        const counts: [number, number, number] = [1, 1, 1];
        let rest = count;
        for (const axis of order) {
          counts[axis] = Math.min(may[axis] ?? 0, rest);
          rest = Math.floor(rest / counts[axis]);
        }
        const volume = volumeOf(counts) * volumeOf(sides);
        const spare = spareOf(room, sides, counts);
        const closer = isLess(spare, least);
        const better = liking === 'volume' ? isMore(volume, most) || (closer && !isMore(most, volume)) : closer;
        if (!better) continue;
        best = { of, sides, counts };
        most = volume;
        least = spare;
      }
    }
  }
  return best;
}

/** Room left beside a block along each axis, the least first. */
function spareOf(room: Sides, sides: Sides, counts: Sides): Sides {
  const [a, b, c] = AXES.map((axis) => room[axis] - counts[axis] * sides[axis]).sort((x, y) => x - y);
  return [a ?? 0, b ?? 0, c ?? 0];
}

function isLess(a: Sides, b: Sides): boolean {
  const axis = AXES.find((each) => Math.abs(a[each] - b[each]) > ROUNDING);
  return axis !== undefined && a[axis] < b[axis];
}

/** The corner of the space that is nearest to a corner of the container. */
function cornerFor({ sides, counts }: Block, { from, to }: Space, inside: Sides, turn: Turn): Sides {
  const at = (axis: 0 | 1 | 2): number => {
    const far = turn === 'corner' && inside[axis] - to[axis] < from[axis] - ROUNDING;
    return far ? to[axis] - counts[axis] * sides[axis] : from[axis];
  };
  return [at(0), at(1), at(2)];
}

/** What is left of the room around a block, as largest cuboids again. */
function without(spaces: readonly Space[], { at, sides, counts }: PlacedBlock): Space[] {
  const end: Sides = [at[0] + counts[0] * sides[0], at[1] + counts[1] * sides[1], at[2] + counts[2] * sides[2]];
  const whole: Space[] = [];
  const cut: Space[] = [];
  for (const space of spaces) {
    const { from, to } = space;
    const apart = AXES.some((axis) => end[axis] <= from[axis] + ROUNDING || at[axis] >= to[axis] - ROUNDING);
    if (apart) {
      whole.push(space);
      continue;
    }
    for (const axis of AXES) {
      if (at[axis] > from[axis] + ROUNDING) cut.push({ from, to: changed(to, axis, at[axis]) });
      if (end[axis] < to[axis] - ROUNDING) cut.push({ from: changed(from, axis, end[axis]), to });
    }
  }
  let largest: Space[] = [];
  for (const space of [...whole, ...cut]) {
    if (largest.some((other) => holds(other, space))) continue;
    largest = [...largest.filter((other) => !holds(space, other)), space];
  }
  return largest;
}

function changed(point: Sides, axis: 0 | 1 | 2, value: number): Sides {
  return [axis === 0 ? value : point[0], axis === 1 ? value : point[1], axis === 2 ? value : point[2]];
}

/** Whether a space lies within another. */
function holds(outer: Space, inner: Space): boolean {
  return AXES.every(
    (axis) => inner.from[axis] >= outer.from[axis] - ROUNDING && inner.to[axis] <= outer.to[axis] + ROUNDING,
  );
}
