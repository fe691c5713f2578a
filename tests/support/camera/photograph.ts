import { normalDeviate, seeded } from '../seeded.ts';
import type { PrintedSymbol } from './symbol.ts';

/** How a symbol lies before the camera, and what the camera makes of it. */
export interface Shot {
  readonly width: number;
  readonly height: number;
  /** points of the picture that one module is wide */
  readonly moduleWidth: number;
  /** degrees, against the clock */
  readonly turn?: number;
  /** standard deviation of a Gaussian, in points */
  readonly blur?: number;
  /** standard deviation of the sensor's noise, in steps of 255 */
  readonly noise?: number;
  /** `even`; `dim`: a quarter of it; `shadow`: from full to a quarter across the picture */
  readonly light?: 'even' | 'dim' | 'shadow';
  /** how far the symbol's middle lies from the picture's, in points */
  readonly offset?: { readonly x: number; readonly y: number };
  readonly seed?: number;
}

const PAPER = 225;
const INK = 35;
const TABLE = 120;
/** Each point is the mean of this many squared, as a sensor's cell is. */
const SAMPLES = 3;

/** A greyscale picture of a symbol on a table, one byte of brightness a point. */
export function photograph(symbol: PrintedSymbol, shot: Shot): Uint8Array<ArrayBuffer> {
  const sharp = laidOut(symbol, shot);
  const soft = blurred(sharp, shot.width, shot.height, shot.blur ?? 0);
  const random = seeded(shot.seed ?? 1);
  const picture = new Uint8Array(soft.length);
  for (let at = 0; at < soft.length; at++) {
    const lit = (soft[at] ?? 0) * lightAt(at % shot.width, shot);
    picture[at] = Math.max(0, Math.min(255, Math.round(lit + (shot.noise ?? 0) * normalDeviate(random))));
  }
  return picture;
}

function laidOut(symbol: PrintedSymbol, shot: Shot): Float32Array {
  const { width, height, moduleWidth, turn = 0, offset = { x: 0, y: 0 } } = shot;
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle) / moduleWidth, Math.sin(angle) / moduleWidth];
  const out = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let sample = 0; sample < SAMPLES * SAMPLES; sample++) {
        const dx = x + ((sample % SAMPLES) + 0.5) / SAMPLES - width / 2 - offset.x;
        const dy = y + (Math.floor(sample / SAMPLES) + 0.5) / SAMPLES - height / 2 - offset.y;
        const column = Math.floor(dx * cos - dy * sin + symbol.width / 2);
        const row = Math.floor(dx * sin + dy * cos + symbol.height / 2);
        const onPaper = column >= 0 && column < symbol.width && row >= 0 && row < symbol.height;
        sum += !onPaper ? TABLE : symbol.isDark(column, row) ? INK : PAPER;
      }
      out[y * width + x] = sum / (SAMPLES * SAMPLES);
    }
  }
  return out;
}

function lightAt(x: number, { light, width }: Shot): number {
  if (light === 'dim') return 1 / 4;
  return light === 'shadow' ? 1 - 0.75 * (x / width) : 1;
}

function blurred(picture: Float32Array, width: number, height: number, deviation: number): Float32Array {
  if (deviation === 0) return picture;
  const reach = Math.ceil(deviation * 3);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, at) =>
    Math.exp(-((at - reach) ** 2) / (2 * deviation ** 2)),
  );
  const total = weights.reduce((sum, each) => sum + each, 0);
  const pass = (from: Float32Array, step: number, place: (at: number) => number, length: number): Float32Array =>
    from.map((_, at) => {
      let sum = 0;
      for (let shift = -reach; shift <= reach; shift++) {
        const held = Math.max(0, Math.min(length - 1, place(at) + shift)) - place(at);
        sum += (weights[shift + reach] ?? 0) * (from[at + held * step] ?? 0);
      }
      return sum / total;
    });
  const across = pass(picture, 1, (at) => at % width, width);
  return pass(across, width, (at) => Math.floor(at / width), height);
}
