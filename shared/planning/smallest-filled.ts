import type { Item } from './item.ts';
import { RIGID_TAKES, SOFT_TAKES } from '#shared/fitting/pouch.ts';
import type { Container, Fit, Wrap } from '#shared/fitting/types.ts';
import { toMillimetres } from '#shared/units/length.ts';

type Size = Fit['filled'];

/** The empty container as it lies. */
export function emptySize(container: Container): Size {
  const { width, length, depth } = container.outside;
  return {
    width: toMillimetres(width),
    length: toMillimetres(length),
    thickness: depth === undefined ? 0 : toMillimetres(depth),
  };
}

/** What any way of folding some items, each in its wrap, comes to at least, and how thick it gets at most; float mm. */
interface Least {
  readonly short: number;
  readonly long: number;
  readonly pressed: number;
  readonly thickest: number;
}

function leastOf(items: readonly Item[], wrap: Wrap): Least {
  let [short, long, pressed, thickest] = [0, 0, 0, 0];
  for (const { ideal, thickest: most } of items) {
    short = Math.max(short, ideal.width);
    long = Math.max(long, ideal.length);
    pressed += ideal.pressedThickness + wrap.thickness;
    thickest += most + wrap.thickness;
  }
  return { short, long, pressed, thickest };
}

/** Rounding of sums, in mm. */
const ROUNDING = 1e-6;

/** Width and length of a filled pouch with its stack lying one way; null where no such stack goes in. */
function smallestLying(
  container: Container,
  across: number,
  along: number,
  { pressed, thickest }: Least,
  takes: readonly [least: number, most: number],
): readonly [width: number, length: number] | null {
  const width = toMillimetres(container.inside.width) - across;
  const length = toMillimetres(container.inside.length) - toMillimetres(container.closing) - along;
  const mostThick = Math.min(thickest, width / takes[0], length);
  if (mostThick + ROUNDING < pressed) return null;
  const walls = 2 * toMillimetres(container.wall);
  const drawnIn = takes[1] * mostThick;
  return [
    Math.max(toMillimetres(container.outside.width) - drawnIn, across + walls),
    Math.max(toMillimetres(container.outside.length) - drawnIn, along + walls),
  ];
}

/** Down to a multiple of mm, so that few sizes are asked for; never to nothing. */
function down(millimetres: number, step: number): number {
  return millimetres < step ? millimetres : Math.floor(millimetres / step) * step;
}

/** Sizes are brought down to half inches: cards draw their lines at whole ones, or at centimetres, which are not far off. */
const STEP = 12.7;

/**
 * However the items are folded, the filled container is no smaller in any direction. Paper and board keep their outside;
 * film draws in as it fills, but not below what it holds.
 */
export function smallestFilled(items: readonly Item[], container: Container, wrap: Wrap): Size {
  const empty = emptySize(container);
  if (container.type === 'carton') return empty;
  const least = leastOf(items, wrap);
  const thickness = down(least.pressed + 2 * toMillimetres(container.wall), STEP);
  if (container.type === 'card') return { ...empty, thickness };
  // A corner takes more width from the film than a round side does.
  const takes = [
    items.every(({ ideal }) => ideal.soft) ? SOFT_TAKES : RIGID_TAKES,
    items.every(({ soft }) => soft) ? SOFT_TAKES : RIGID_TAKES,
  ] as const;
  const lying = [
    smallestLying(container, least.short, least.long, least, takes),
    smallestLying(container, least.long, least.short, least, takes),
  ].filter((sides) => sides !== null);
  return {
    width: down(Math.min(empty.width, ...lying.map((sides) => sides[0])), STEP),
    length: down(Math.min(empty.length, ...lying.map((sides) => sides[1])), STEP),
    thickness,
  };
}

/** However any of the items are put into the container, filled it is no smaller in any direction. */
export function smallestWithAny(items: readonly Item[], container: Container): Size {
  if (container.type === 'carton') return emptySize(container);
  const least = (of: (item: Item) => number) => Math.min(...items.map(of));
  const thickness = down(
    least(({ ideal }) => ideal.pressedThickness),
    STEP,
  );
  if (container.type === 'card') return { ...emptySize(container), thickness };
  return {
    width: down(
      least(({ ideal }) => ideal.width),
      STEP,
    ),
    length: down(
      least(({ ideal }) => ideal.length),
      STEP,
    ),
    thickness,
  };
}
