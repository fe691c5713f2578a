import type { Point } from '#shared/folding/types.ts';
import type { Detail, FlatMeasures } from '../types.ts';
import { bothHalves, detail, mirrored, type FlatGarment, type Part } from './flat-garment.ts';

const WAISTBAND = 40;
const HIP_OF_WAIST = 1.1;

/** Trousers: one outline with the gap between the legs. */
export function legs(measures: FlatMeasures, layers: number, details: readonly Detail[]): FlatGarment {
  const waist = measures.width / 2;
  const hip = Math.max(waist, (measures.hipWidth ?? measures.width * HIP_OF_WAIST) / 2);
  const inseam = measures.inseam ?? measures.length * 0.72;
  const crotch = measures.length - inseam;
  const hem = Math.min(measures.hemWidth ?? hip * 0.8, hip);
  const outer = hip * 0.99;
  const rightHalf: Point[] = [
    [0, 0],
    [waist, 0],
    [hip, crotch * 0.72],
    [outer, measures.length],
    [outer - hem, measures.length],
    [0, crotch],
  ];
  const parts: Part[] = [{ name: 'body', points: bothHalves(rightHalf), side: 'face', layers, detail: false }];
  if (details.includes('waistband')) {
    const slope = ((hip - waist) * WAISTBAND) / (crotch * 0.72);
    parts.push(band(waist, slope), fly(crotch));
  }
  if (details.includes('front-pockets')) {
    const pocket: Point[] = [
      [waist * 0.55, WAISTBAND],
      [waist * 0.62, WAISTBAND + 55],
      [waist * 1.02, WAISTBAND + 75],
      [waist * 1.01, WAISTBAND],
    ];
    parts.push(detail(pocket), detail(mirrored(pocket)));
  }
  return { parts, seams: {} };
}

/** A skirt: waist to hem, flared or straight. */
export function skirt(measures: FlatMeasures, layers: number, details: readonly Detail[]): FlatGarment {
  const waist = measures.width / 2;
  const hem = (measures.flareWidth ?? measures.width * 1.25) / 2;
  const hip = Math.max((measures.hipWidth ?? 0) / 2, waist + (hem - waist) * 0.4);
  const rightHalf: Point[] = [
    [0, 0],
    [waist, 0],
    [hip, Math.min(200, measures.length * 0.35)],
    [hem, measures.length],
    [0, measures.length + hem * 0.04],
  ];
  const parts: Part[] = [{ name: 'body', points: bothHalves(rightHalf), side: 'face', layers, detail: false }];
  if (details.includes('waistband')) parts.push(band(waist, 4));
  return { parts, seams: {} };
}

/** A scarf, or anything else that is a plain rectangle. */
export function strip(measures: FlatMeasures, layers: number): FlatGarment {
  const half = measures.width / 2;
  const rightHalf: Point[] = [
    [0, 0],
    [half, 0],
    [half, measures.length],
    [0, measures.length],
  ];
  return {
    parts: [{ name: 'body', points: bothHalves(rightHalf), side: 'face', layers, detail: false }],
    seams: {},
  };
}

function band(half: number, slope: number): Part {
  return detail(
    bothHalves([
      [0, 0],
      [half, 0],
      [half + slope, WAISTBAND],
      [0, WAISTBAND],
    ]),
  );
}

function fly(crotch: number): Part {
  return detail([
    [0, WAISTBAND],
    [32, WAISTBAND],
    [30, crotch * 0.55],
    [0, crotch * 0.75],
  ]);
}
