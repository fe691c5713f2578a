import { toMillimetres } from '#shared/units/length.ts';
import type { FoldedBlock } from '#shared/folding/types.ts';
import { greatestInCard } from './card.ts';
import { arrange, type Arrangement } from './carton.ts';
import { FitError } from './fit-error.ts';
import { holds } from './normal.ts';
import { RIGID_TAKES, SOFT_TAKES } from './pouch.ts';
import { stackOf, type Stack } from './stack.ts';
import type { Container, Fit, FitVerdict, Wrap } from './types.ts';

/** Room in a container for one way of lying, float mm; negative by how much it fails. */
interface Room {
  readonly width: number;
  readonly length: number;
  readonly thickness: number;
  /** the thickness is limited by the cap, not by the shape */
  readonly capped: boolean;
}

/** How a container's room depends on a stack of across x along x thickness. */
type RoomOf = (container: Container, soft: boolean, across: number, along: number, thickness: number) => Room;

const pouchRoom: RoomOf = (container, soft, across, along, thickness) => {
  const takes = soft ? SOFT_TAKES : RIGID_TAKES;
  const width = toMillimetres(container.inside.width) - across - takes * thickness;
  const length = toMillimetres(container.inside.length) - toMillimetres(container.closing) - along - thickness;
  return { width, length, thickness: Math.min(width / takes, length), capped: false };
};

const cardRoom: RoomOf = (container, _soft, across, along, thickness) => {
  const inside = toMillimetres(container.inside.width);
  const length = toMillimetres(container.inside.length) - toMillimetres(container.closing) - along;
  const cap = container.thicknessCap === undefined ? Infinity : toMillimetres(container.thicknessCap);
  const byShape = greatestInCard(inside, across);
  const capped = cap < byShape;
  return { width: inside - across, length, thickness: (capped ? cap : byShape) - thickness, capped };
};

const cartonRoom: RoomOf = (container, _soft, across, along, thickness) => {
  const depth = container.inside.depth;
  if (depth === undefined) {
    throw new FitError('missing-depth', `container ${container.id}: expected a depth for a carton, found none`);
  }
  return {
    width: toMillimetres(container.inside.width) - across,
    length: toMillimetres(container.inside.length) - along,
    thickness: toMillimetres(depth) - thickness,
    capped: false,
  };
};

const ROOM_OF: Readonly<Record<Container['type'], RoomOf>> = {
  pouch: pouchRoom,
  card: cardRoom,
  carton: cartonRoom,
};

/** How many mm of thickness a mm more width costs in a card, near enough; the arcs of a half-filled card. */
const CARD_TRADE = 0.6;

function tightest(room: Room): number {
  return Math.min(room.width, room.length, room.thickness);
}

function limitOf(container: Container, room: Room): Fit['limit'] {
  if (container.type === 'pouch') return room.width <= room.length ? 'width' : 'length';
  if (room.thickness <= room.width && room.thickness <= room.length) {
    return room.capped ? 'thickness-cap' : 'thickness';
  }
  return room.width <= room.length ? 'width' : 'length';
}

function closes(container: Container, stack: Stack, room: Room): number {
  const { sideSd, variance } = stack;
  const sides = sideSd * sideSd;
  switch (container.type) {
    case 'pouch': {
      const takes = stack.soft ? SOFT_TAKES : RIGID_TAKES;
      const width = holds(room.width, Math.sqrt(sides + takes * takes * variance));
      return Math.min(width, holds(room.length, Math.sqrt(sides + variance)));
    }
    case 'card': {
      const spread = room.capped ? variance : variance + CARD_TRADE * CARD_TRADE * sides;
      return Math.min(holds(room.length, sideSd), holds(room.thickness, Math.sqrt(spread)));
    }
    case 'carton':
      return Math.min(
        holds(room.width, sideSd),
        holds(room.length, sideSd),
        holds(room.thickness, Math.sqrt(variance)),
      );
  }
}

/** The outside of the closed container in mm: film draws in by what the thickness takes, paper and board do not. */
function filledSize(container: Container, stack: Stack, turned: boolean, thickness: number): Fit['filled'] {
  const width = toMillimetres(container.outside.width);
  const length = toMillimetres(container.outside.length);
  const walls = 2 * toMillimetres(container.wall);
  if (container.type === 'carton') {
    const depth = container.outside.depth ?? container.inside.depth;
    return { width, length, thickness: depth === undefined ? thickness : toMillimetres(depth) };
  }
  if (container.type === 'card') return { width, length, thickness: thickness + walls };
  const takes = stack.soft ? SOFT_TAKES : RIGID_TAKES;
  return {
    width: Math.max(width - takes * thickness, (turned ? stack.long : stack.short) + walls),
    length: Math.max(length - takes * thickness, (turned ? stack.short : stack.long) + walls),
    thickness: thickness + walls,
  };
}

/**
 * How folded pieces, each wrapped, sit in a container: one stack, either way round.
 *
 * `easy` when it closes with the cloth resting, `snug` when only pressed by a hand, `no` otherwise or when something in
 * it must not be pressed. The probability is that of closing, pressed where that is allowed, for a normal spread of
 * thickness and of the folded sides.
 * @throws FitError nothing-to-pack, bad-measure or missing-depth
 */
export function fitStack(blocks: readonly FoldedBlock[], container: Container, wrap: Wrap): Fit {
  const stack = stackOf(blocks, wrap);
  const roomOf = ROOM_OF[container.type];
  const { short, long, resting, pressed, soft } = stack;

  const along = roomOf(container, soft, short, long, resting);
  const across = roomOf(container, soft, long, short, resting);
  let turned = tightest(across) > tightest(along);
  let room = turned ? across : along;
  let verdict: FitVerdict = tightest(room) >= 0 ? 'easy' : 'no';
  let mustNotPress = false;

  let pressedRoom = roomOf(container, soft, turned ? long : short, turned ? short : long, pressed);
  if (verdict === 'no') {
    const other = roomOf(container, soft, turned ? short : long, turned ? long : short, pressed);
    const otherWay = tightest(other) > tightest(pressedRoom);
    const better = otherWay ? other : pressedRoom;
    if (!stack.mayPress) {
      mustNotPress = tightest(better) >= 0;
    } else {
      pressedRoom = better;
      room = better;
      if (otherWay) turned = !turned;
      if (tightest(better) >= 0) verdict = 'snug';
    }
  }
  if (verdict === 'no' && container.type === 'carton') {
    const arranged = fitArranged(blocks, container, wrap, stack);
    if (arranged !== null) return arranged;
  }
  return {
    verdict,
    probability: closes(container, stack, stack.mayPress ? pressedRoom : room),
    slack: { width: room.width, length: room.length, thickness: room.thickness },
    turned,
    filled: filledSize(container, stack, turned, verdict === 'easy' ? resting : pressed),
    limit: mustNotPress ? 'must-not-press' : limitOf(container, room),
  };
}

/** Pieces that go into a carton only beside each other or another way up; null when they do not go in at all. */
function fitArranged(blocks: readonly FoldedBlock[], container: Container, wrap: Wrap, stack: Stack): Fit | null {
  const width = toMillimetres(container.inside.width);
  const length = toMillimetres(container.inside.length);
  const depth = container.inside.depth === undefined ? 0 : toMillimetres(container.inside.depth);
  const inside = [width, length, depth] as const;
  let verdict: FitVerdict = 'easy';
  let found: Arrangement | null = arrange(blocks, wrap, inside, false);
  if (found === null && stack.mayPress && stack.pressed < stack.resting) {
    verdict = 'snug';
    found = arrange(blocks, wrap, inside, true);
  }
  if (found === null) return null;
  const room: Room = {
    width: width - found.used[0],
    length: length - found.used[1],
    thickness: depth - found.used[2],
    capped: false,
  };
  return {
    verdict,
    probability: closes(container, stack, room),
    slack: { width: room.width, length: room.length, thickness: room.thickness },
    turned: false,
    filled: filledSize(container, stack, false, found.used[2]),
    limit: limitOf(container, room),
    ...(found.piles > 1 ? { piles: found.piles } : {}),
  };
}
