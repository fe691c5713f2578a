import type { Part, Seam } from '#shared/garments/outlines/flat-garment.ts';
import { coverOf, thickestLayers } from './cover.ts';
import { FoldError } from './fold-error.ts';
import { boxOf, foldOver, turnOver, type Folded, type Lay } from './lay.ts';
import { flipLine, lineThrough, middle, type Line } from './polygon.ts';
import type { FoldAction, Fraction, Point } from './types.ts';

/** One crease of a step: where it is and which way the cloth goes. */
export interface Move {
  readonly foldLine: readonly [Point, Point];
  readonly arrow: readonly [Point, Point];
}

/** A step carried out: the lay after it, what the drawing needs, and how many layers the crease bends. */
export interface Applied {
  readonly lay: Lay;
  readonly still: readonly Part[];
  readonly moving: readonly Part[];
  readonly landing: readonly Part[];
  readonly moves: readonly Move[];
  /** an arrow without a crease: the whole piece is turned over */
  readonly turning?: readonly [Point, Point];
  readonly bentLayers: number;
  readonly rolled: boolean;
}

/** What an action may need to know besides the lay. */
export interface Around {
  /** resting volume of the piece's cloth in mm3, which decides how thick a roll gets */
  readonly volume: number;
  /** the other part of a set, flat and face up, by its kind */
  readonly companion: (kind: string) => Lay;
}

/** How loosely a roll is wound: its diameter against that of the bare cloth. */
const LOOSE_ROLL = 1.1;

/** A crease is drawn this much longer than the cloth, as a part of it, so that it can be seen. */
const CREASE_OVERHANG = 0.04;

/**
 * Carries out one action.
 * @throws FoldError does-not-close (a fraction outside a half to the whole) or no-such-part
 */
export function applyAction(lay: Lay, action: FoldAction, around: Around): Applied {
  switch (action.do) {
    case 'fasten':
      return unmoved(lay);
    case 'face-down':
      return lay.up === 'back' ? unmoved(lay) : turning(lay);
    case 'face-up':
      return lay.up === 'face' ? unmoved(lay) : turning(lay);
    case 'sleeves-in':
      return sleevesIn(lay);
    case 'hood-down':
      return hoodDown(lay);
    case 'legs-together':
      return creased(lay, acrossWidth(lay, 'right', [1, 2]), () => true);
    case 'fold-width':
      return creased(lay, acrossWidth(lay, action.from, action.to), () => true);
    case 'fold-length':
      return creased(lay, acrossLength(lay, action.from, action.to), () => true);
    case 'tuck':
      return tucked(lay, action.from, action.to);
    case 'lay-on':
      return laidOn(lay, action.by, around.companion(action.kind), around);
    case 'roll':
      return roll(lay, action.from, around.volume);
  }
}

function unmoved(lay: Lay): Applied {
  return { lay, still: lay.parts, moving: [], landing: [], moves: [], bentLayers: 0, rolled: false };
}

function turning(lay: Lay): Applied {
  const after = turnOver(lay);
  const box = boxOf(after.parts);
  const y = box.y + box.height * 0.42;
  const arrow: [Point, Point] = [
    [box.x + box.width * 0.8, y],
    [box.x + box.width * 0.2, y],
  ];
  return { ...unmoved(after), turning: arrow };
}

interface Crease {
  readonly line: Line;
  readonly drawn: readonly [Point, Point];
}

/** A fraction between a half and the whole; less would leave the end sticking out on the other side. */
function closing([numerator, denominator]: Fraction, what: string): number {
  const part = numerator / denominator;
  if (!(part >= 0.5) || !(part < 1)) {
    throw new FoldError(
      'does-not-close',
      `${what}: expected a fraction of at least 1/2 and less than 1, found ${numerator}/${denominator}`,
    );
  }
  return part;
}

function acrossWidth(lay: Lay, from: 'left' | 'right', to: Fraction, what = 'fold-width'): Crease {
  const box = boxOf(lay.parts);
  const kept = closing(to, what) * box.width;
  const over = box.height * CREASE_OVERHANG;
  const x = from === 'right' ? box.x + kept : box.x + box.width - kept;
  const line: Line = from === 'right' ? { nx: 1, ny: 0, d: x } : { nx: -1, ny: 0, d: -x };
  return {
    line,
    drawn: [
      [x, box.y - over],
      [x, box.y + box.height + over],
    ],
  };
}

function acrossLength(lay: Lay, from: 'top' | 'bottom', to: Fraction, what = 'fold-length'): Crease {
  const box = boxOf(lay.parts);
  const kept = closing(to, what) * box.height;
  const over = box.width * CREASE_OVERHANG;
  const y = from === 'bottom' ? box.y + kept : box.y + box.height - kept;
  const line: Line = from === 'bottom' ? { nx: 0, ny: 1, d: y } : { nx: 0, ny: -1, d: -y };
  return {
    line,
    drawn: [
      [box.x - over, y],
      [box.x + box.width + over, y],
    ],
  };
}

function creased(lay: Lay, crease: Crease, chosen: (part: Part) => boolean): Applied {
  const folded = foldOver(lay.parts, crease.line, chosen);
  return {
    ...folded,
    lay: { ...lay, parts: [...folded.still, ...folded.landing] },
    moves: [moveOf(crease.drawn, folded)],
    bentLayers: thickestLayers(folded.moving),
    rolled: false,
  };
}

/** Folded under: what lands lies lowest. */
function tucked(lay: Lay, from: 'left' | 'right' | 'top' | 'bottom', to: Fraction): Applied {
  const crease =
    from === 'left' || from === 'right' ? acrossWidth(lay, from, to, 'tuck') : acrossLength(lay, from, to, 'tuck');
  const applied = creased(lay, crease, () => true);
  return { ...applied, lay: { ...lay, parts: [...applied.landing, ...applied.still] } };
}

/** How far beside the lay the other part of a set waits in the drawing, as a part of the lay's width. */
const WAITING_GAP = 0.15;

function laidOn(lay: Lay, by: readonly FoldAction[], companion: Lay, around: Around): Applied {
  let other = companion;
  for (const action of by) other = applyAction(other, action, around).lay;
  const under = boxOf(lay.parts);
  const over = boxOf(other.parts);
  const intoX = under.x + (under.width - over.width) / 2 - over.x;
  const intoY = under.y + (under.height - over.height) / 2 - over.y;
  const beside = under.width * (1 + WAITING_GAP) - (under.width - over.width) / 2;
  const landing = shifted(other.parts, intoX, intoY);
  const moving = shifted(other.parts, intoX + beside, intoY);
  const arrow: [Point, Point] = [middle(moving.map((part) => part.points)), middle(landing.map((part) => part.points))];
  return {
    lay: { ...lay, parts: [...lay.parts, ...landing] },
    still: lay.parts,
    moving,
    landing,
    moves: [],
    turning: arrow,
    bentLayers: 0,
    rolled: false,
  };
}

function shifted(parts: readonly Part[], x: number, y: number): Part[] {
  return parts.map((part) => ({
    ...part,
    name: 'body',
    points: part.points.map(([px, py]): Point => [px + x, py + y]),
  }));
}

function moveOf(foldLine: Move['foldLine'], folded: Folded): Move {
  const from = middle(folded.moving.map((part) => part.points));
  const to = middle(folded.landing.map((part) => part.points));
  return { foldLine, arrow: [from, to] };
}

function sleevesIn(lay: Lay): Applied {
  const { leftSleeve, rightSleeve } = lay.seams;
  if (leftSleeve === undefined || rightSleeve === undefined) {
    throw new FoldError('no-such-part', 'sleeves-in: expected a garment with sleeves, found none');
  }
  // The creases run from shoulder to underarm; beyond them lies outwards, and a corner of the shoulder goes along.
  const right = foldOver(lay.parts, beyond(rightSleeve, 'right'), (part) => part.name !== 'left-sleeve');
  const left = foldOver(right.still, beyond(leftSleeve, 'left'), (part) => part.name !== 'right-sleeve');
  const landing = [...right.landing, ...left.landing];
  return {
    lay: { ...lay, parts: [...left.still, ...landing] },
    still: left.still,
    moving: [...left.moving, ...right.moving],
    landing,
    moves: [moveOf(longer(rightSleeve), right), moveOf(longer(leftSleeve), left)],
    bentLayers: thickestLayers(right.moving),
    rolled: false,
  };
}

/** The line of a crease, its far side outwards. */
function beyond([from, to]: Seam, side: 'left' | 'right'): Line {
  const line = lineThrough(from, to);
  const outwards = side === 'right' ? 1 : -1;
  return line.nx * outwards > 0 ? line : flipLine(line);
}

function hoodDown(lay: Lay): Applied {
  const seam = lay.seams.hood;
  if (seam === undefined) {
    throw new FoldError('no-such-part', 'hood-down: expected a garment with a hood, found none');
  }
  const y = seam[0][1];
  return creased(lay, { line: { nx: 0, ny: -1, d: -y }, drawn: longer(seam) }, (part) => part.name === 'hood');
}

function roll(lay: Lay, from: 'top' | 'bottom', volume: number): Applied {
  const box = boxOf(lay.parts);
  const diameter = LOOSE_ROLL * Math.sqrt((4 * volume) / (Math.PI * box.width));
  const top = from === 'bottom' ? box.y : box.y + box.height - diameter;
  const points: Point[] = [
    [box.x, top],
    [box.x + box.width, top],
    [box.x + box.width, top + diameter],
    [box.x, top + diameter],
  ];
  const { layers } = coverOf(lay.parts);
  const side = lay.up === 'face' ? 'back' : 'face';
  const rolled: Part = { name: 'body', points, side, layers, detail: false };
  const x = box.x + box.width / 2;
  const start = from === 'bottom' ? box.y + box.height : box.y;
  return {
    lay: { parts: [rolled], seams: {}, up: lay.up },
    still: [],
    moving: lay.parts,
    landing: [rolled],
    moves: [],
    turning: [
      [x, start],
      [x, top + diameter / 2],
    ],
    bentLayers: 0,
    rolled: true,
  };
}

function longer([from, to]: Seam): Seam {
  const over = 0.12;
  const dx = (to[0] - from[0]) * over;
  const dy = (to[1] - from[1]) * over;
  return [
    [from[0] - dx, from[1] - dy],
    [to[0] + dx, to[1] + dy],
  ];
}
