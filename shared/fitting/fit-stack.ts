import { toMillimetres } from '#shared/units/length.ts';
import type { FoldedBlock } from '#shared/folding/types.ts';
import { greatestInCard } from './card.ts';
import { arrange } from './carton.ts';
import { FitError } from './fit-error.ts';
import { CERTAIN, probabilityOf, scoreOf } from './normal.ts';
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

/** Inside depth of a carton, in mm. */
function depthOf({ id, inside }: Container): number {
  if (inside.depth !== undefined) return toMillimetres(inside.depth);
  throw new FitError('missing-depth', `container ${id}: expected a depth for a carton, found none`);
}

const cartonRoom: RoomOf = (container, _soft, across, along, thickness) => ({
  width: toMillimetres(container.inside.width) - across,
  length: toMillimetres(container.inside.length) - along,
  thickness: depthOf(container) - thickness,
  capped: false,
});

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

/** Least margin of a room in standard deviations. */
function scoreIn(container: Container, stack: Stack, room: Room): number {
  const { sideSd, variance } = stack;
  const sides = sideSd * sideSd;
  switch (container.type) {
    case 'pouch': {
      const takes = stack.soft ? SOFT_TAKES : RIGID_TAKES;
      const width = scoreOf(room.width, Math.sqrt(sides + takes * takes * variance));
      return Math.min(width, scoreOf(room.length, Math.sqrt(sides + variance)));
    }
    case 'card': {
      const spread = room.capped ? variance : variance + CARD_TRADE * CARD_TRADE * sides;
      return Math.min(scoreOf(room.length, sideSd), scoreOf(room.thickness, Math.sqrt(spread)));
    }
    case 'carton':
      return Math.min(
        scoreOf(room.width, sideSd),
        scoreOf(room.length, sideSd),
        scoreOf(room.thickness, Math.sqrt(variance)),
      );
  }
}

/** The outside of the closed container in mm: film draws in by what the thickness takes, paper and board do not. */
function filledSize(container: Container, stack: Stack, turned: boolean, thickness: number): Fit['filled'] {
  const width = toMillimetres(container.outside.width);
  const length = toMillimetres(container.outside.length);
  const walls = 2 * toMillimetres(container.wall);
  if (container.type === 'carton') {
    const { depth } = container.outside;
    return { width, length, thickness: depth === undefined ? depthOf(container) : toMillimetres(depth) };
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
  return scoredFit(blocks, container, wrap).fit;
}

/**
 * By how many standard deviations the pieces are expected to close in a container: the probability of {@link fitStack} is
 * that of a normal variable below it. Infinite where nothing is spread.
 * @throws FitError as {@link fitStack}
 */
export function closingScore(blocks: readonly FoldedBlock[], container: Container, wrap: Wrap): number {
  return scoredFit(blocks, container, wrap).score;
}

function scoredFit(blocks: readonly FoldedBlock[], container: Container, wrap: Wrap): Scored {
  const stack = stackOf(blocks, wrap);
  const one = fitPile(container, stack);
  if (container.type !== 'carton' || (one.fit.verdict === 'easy' && one.score >= CERTAIN)) return one;
  return fitArranged(blocks, container, wrap, stack, one);
}

/** A fit with its least margin in standard deviations, which its probability follows from. */
interface Scored {
  readonly fit: Fit;
  readonly score: number;
}

/** All in one pile, either way round: the way that closes most surely decides the probability. */
function fitPile(container: Container, stack: Stack): Scored {
  const roomOf = ROOM_OF[container.type];
  const { short, long, resting, pressed, soft, mayPress } = stack;
  const along = roomOf(container, soft, short, long, resting);
  const across = roomOf(container, soft, long, short, resting);
  const pressedAlong = roomOf(container, soft, short, long, pressed);
  const pressedAcross = roomOf(container, soft, long, short, pressed);
  const score = Math.max(
    scoreIn(container, stack, mayPress ? pressedAlong : along),
    scoreIn(container, stack, mayPress ? pressedAcross : across),
  );

  let turned = tightest(across) > tightest(along);
  let room = turned ? across : along;
  let verdict: FitVerdict = tightest(room) >= 0 ? 'easy' : 'no';
  let mustNotPress = false;
  if (verdict === 'no') {
    const pressedTurned = tightest(pressedAcross) > tightest(pressedAlong);
    const pressedRoom = pressedTurned ? pressedAcross : pressedAlong;
    const closes = tightest(pressedRoom) >= 0;
    if (mayPress) {
      turned = pressedTurned;
      room = pressedRoom;
      if (closes) verdict = 'snug';
    } else {
      mustNotPress = closes;
    }
  }
  const fit: Fit = {
    verdict,
    probability: probabilityOf(score),
    slack: { width: room.width, length: room.length, thickness: room.thickness },
    turned,
    filled: filledSize(container, stack, turned, verdict === 'easy' ? resting : pressed),
    limit: mustNotPress ? 'must-not-press' : limitOf(container, room),
  };
  return { fit, score };
}

const RANK: Readonly<Record<FitVerdict, number>> = { no: 0, snug: 1, easy: 2 };

/**
 * A carton also takes pieces beside each other or another way up. The verdict and the probability are those of the best
 * way, so that neither ever gets better when a piece grows.
 */
function fitArranged(
  blocks: readonly FoldedBlock[],
  container: Container,
  wrap: Wrap,
  stack: Stack,
  pile: Scored,
): Scored {
  const width = toMillimetres(container.inside.width);
  const length = toMillimetres(container.inside.length);
  const depth = depthOf(container);
  const inside = [width, length, depth] as const;
  const mayPress = stack.mayPress && stack.pressed < stack.resting;
  const resting = arrange(blocks, wrap, inside, stack, false);
  const pressed = mayPress ? arrange(blocks, wrap, inside, stack, true) : resting;
  const surest = pressed ?? resting;
  if (surest === null) return pile;
  const score = Math.max(pile.score, surest.score);
  const probability = probabilityOf(score);
  const verdict: FitVerdict = resting === null ? 'snug' : 'easy';
  if (RANK[pile.fit.verdict] >= RANK[verdict]) return { fit: { ...pile.fit, probability }, score };
  const { used, piles } = resting ?? surest;
  const room: Room = { width: width - used[0], length: length - used[1], thickness: depth - used[2], capped: false };
  const fit: Fit = {
    verdict,
    probability,
    slack: { width: room.width, length: room.length, thickness: room.thickness },
    turned: false,
    filled: filledSize(container, stack, false, used[2]),
    limit: limitOf(container, room),
    ...(piles > 1 ? { piles } : {}),
  };
  return { fit, score };
}
