import type { Point } from '#shared/folding/types.ts';
import type { Detail, FlatMeasures } from '../types.ts';
import { bothHalves, detail, mirrored, quarterEllipse, type FlatGarment, type Part } from './flat-garment.ts';

/** Proportions of a shoulder, as parts of the chest width; pattern-cutting habit, from memory. */
const NECK_HALF = 0.17;
const SHOULDER_HALF = 0.455;
const SHOULDER_DROP = 0.075;
const COLLAR_HEIGHT = 45;
const PLACKET_WIDTH = 32;

/** How steeply a sleeve lies below the horizontal: a short one stands off, a long one hangs beside the body. */
const SHORT_SLEEVE = 350;
const SHORT_ANGLE = Math.PI / 6;
const LONG_ANGLE = (Math.PI * 42) / 180;
/** Where a long sleeve points once it is folded in: down along the side and a little inwards. */
const FOLDED_ANGLE = (Math.PI * 101) / 180;

interface Frame {
  readonly neckHalf: number;
  readonly shoulder: Point;
  readonly underarm: Point;
  readonly neckDepth: number;
}

function frameOf(measures: FlatMeasures): Frame {
  const half = measures.width / 2;
  const drop = SHOULDER_DROP * measures.width;
  const armhole = Math.min((measures.sleeveWidth ?? 0.4 * measures.width) * 1.04, measures.length * 0.55);
  return {
    neckHalf: NECK_HALF * measures.width,
    shoulder: [2 * SHOULDER_HALF * half, drop],
    underarm: [half, drop + armhole],
    neckDepth: measures.neckDepth ?? 0.13 * measures.width,
  };
}

interface Sleeve {
  readonly outline: Point[];
  readonly cuff: Point[];
  /** the crease that folds it in */
  readonly crease: [Point, Point];
}

/** The right sleeve, from the shoulder along its upper edge to the cuff and back to the underarm. */
function sleeveOf(measures: FlatMeasures, frame: Frame): Sleeve {
  const along = measures.sleeveLength ?? 0;
  const across = measures.sleeveWidth ?? 0.4 * measures.width;
  const short = along < SHORT_SLEEVE;
  const angle = short ? SHORT_ANGLE : LONG_ANGLE;
  const opening = across * (short ? 0.8 : 0.55);
  const way: Point = [Math.cos(angle), Math.sin(angle)];
  const inward: Point = [-way[1], way[0]];
  const at = (down: number, over: number): Point => [
    frame.shoulder[0] + down * way[0] + over * inward[0],
    frame.shoulder[1] + down * way[1] + over * inward[1],
  ];
  const band = Math.min(60, along * 0.15);
  const upper = at(along, 0);
  const lower = at(along, opening);
  const { shoulder, underarm } = frame;
  if (short) {
    return { outline: [shoulder, upper, lower, underarm], cuff: [], crease: [shoulder, underarm] };
  }
  const elbowAt = 0.42 * along;
  const elbowAcross = across * 0.78;
  const bandAcross = opening + ((elbowAcross - opening) * band) / (along - elbowAt);
  // Through the underarm and halfway between where the sleeve points and where it shall point, so that the corner of
  // the shoulder goes with it and nothing is left sticking out beside the body.
  const fold = (angle + FOLDED_ANGLE) / 2;
  const rise = underarm[1] - shoulder[1] * 0.6;
  const top: Point = [underarm[0] - rise / Math.tan(fold), underarm[1] - rise];
  return {
    outline: [shoulder, upper, lower, at(elbowAt, elbowAcross), underarm],
    cuff: [at(along - band, 0), upper, lower, at(along - band, bandAcross)],
    crease: [top, underarm],
  };
}

/** Shoulder and armhole without a sleeve: a curve that cuts in towards the underarm. */
function sleevelessArmhole({ shoulder, underarm, neckHalf }: Frame): Point[] {
  const end = shoulder[0] * 0.86;
  const inset = Math.max(neckHalf * 1.2, end * 0.94);
  const drop = underarm[1] - shoulder[1];
  return [
    [end, shoulder[1] * 0.8],
    [inset, shoulder[1] + drop * 0.45],
    [inset + (underarm[0] - inset) * 0.35, shoulder[1] + drop * 0.82],
  ];
}

/** The right half of the hem side of a body, from below the underarm down to the middle of the hem. */
export type LowerHalf = (underarm: Point) => readonly Point[];

/**
 * Anything with shoulders: a body down to its hem, with or without sleeves, hood, collar and closure.
 * @param layers cloth layers of the body
 */
export function upperBody(
  measures: FlatMeasures,
  layers: number,
  details: readonly Detail[],
  lowerHalf: LowerHalf,
): FlatGarment {
  const frame = frameOf(measures);
  const has = (wanted: Detail) => details.includes(wanted);
  const parts: Part[] = [];
  const seams: { leftSleeve?: [Point, Point]; rightSleeve?: [Point, Point]; hood?: [Point, Point] } = {};

  if (measures.hoodHeight !== undefined) {
    const crown = quarterEllipse(frame.neckHalf * 1.45, -measures.hoodHeight, 6);
    const points = bothHalves([...crown, [frame.neckHalf * 1.15, frame.neckDepth * 0.5], [0, frame.neckDepth * 0.9]]);
    parts.push({ name: 'hood', points, side: 'face', layers: 2, detail: false });
    seams.hood = [
      [-frame.neckHalf * 1.5, 0],
      [frame.neckHalf * 1.5, 0],
    ];
  }
  if (measures.sleeveLength !== undefined) {
    const { outline, cuff, crease } = sleeveOf(measures, frame);
    parts.push({ name: 'right-sleeve', points: outline, side: 'face', layers, detail: false });
    parts.push({ name: 'left-sleeve', points: mirrored(outline), side: 'face', layers, detail: false });
    if (has('cuffs') && cuff.length > 0) {
      parts.push(detail(cuff, 1, 'right-sleeve'), detail(mirrored(cuff), 1, 'left-sleeve'));
    }
    const [[topX, topY], [underX, underY]] = crease;
    seams.rightSleeve = crease;
    seams.leftSleeve = [
      [-topX, topY],
      [-underX, underY],
    ];
  }
  const neckline = quarterEllipse(frame.neckHalf, frame.neckDepth, 5);
  const armhole: Point[] = measures.sleeveLength === undefined ? sleevelessArmhole(frame) : [frame.shoulder];
  const body = bothHalves([...neckline, ...armhole, frame.underarm, ...lowerHalf(frame.underarm)]);
  parts.push({ name: 'body', points: body, side: 'face', layers, detail: false });
  parts.push(...closures(measures, frame, has));
  return { parts, seams };
}

function closures(measures: FlatMeasures, frame: Frame, has: (wanted: Detail) => boolean): Part[] {
  const parts: Part[] = [];
  const { neckHalf, neckDepth } = frame;
  if (has('placket') || has('zip')) {
    const half = (has('zip') ? 0.6 : 1) * (PLACKET_WIDTH / 2);
    parts.push(
      detail([
        [-half, neckDepth],
        [half, neckDepth],
        [half, measures.length],
        [-half, measures.length],
      ]),
    );
  }
  if (has('chest-pocket')) {
    const [x, y, side] = [0.12 * measures.width, frame.underarm[1] * 0.8, 0.2 * measures.width];
    parts.push(
      detail([
        [x, y],
        [x + side, y],
        [x + side, y + side],
        [x + side / 2, y + 1.15 * side],
        [x, y + side],
      ]),
    );
  }
  if (has('front-pockets')) {
    const [near, far] = [0.1 * measures.width, 0.36 * measures.width];
    const [top, bottom] = [measures.length * 0.66, measures.length * 0.86];
    const pocket: Point[] = [
      [near, top],
      [(near + far) / 2, top],
      [far, bottom - (bottom - top) / 3],
      [far, bottom],
      [near, bottom],
    ];
    parts.push(detail(pocket), detail(mirrored(pocket)));
  }
  if (has('collar')) {
    const leaf: Point[] = [
      [0, neckDepth],
      [neckHalf * 0.5, neckDepth + COLLAR_HEIGHT * 0.9],
      [neckHalf * 1.12, COLLAR_HEIGHT * 0.35],
      [neckHalf * 0.82, -COLLAR_HEIGHT * 0.55],
      [0, -COLLAR_HEIGHT * 0.4],
      [neckHalf * 0.6, 0],
    ];
    parts.push(detail(leaf), detail(mirrored(leaf)));
  }
  if (has('lapels')) {
    const lapel: Point[] = [
      [0, measures.length * 0.5],
      [neckHalf * 1.35, measures.length * 0.2],
      [neckHalf * 1.5, measures.length * 0.11],
      [neckHalf * 1.05, 0],
      [neckHalf * 0.8, -COLLAR_HEIGHT * 0.4],
      [neckHalf * 0.55, 0],
    ];
    parts.push(detail(lapel), detail(mirrored(lapel)));
  }
  return parts;
}
