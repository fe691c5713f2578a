import { z } from 'zod';
import type { SoundRefused } from '#shared/wire/voice.ts';

/** Half a second of 16 bit samples. */
const LONGEST_BYTES = 16_000;
const RATE = 16_000;

const piece = z.strictObject({
  n: z.int().min(0),
  rate: z.number(),
  pcm: z.instanceof(Uint8Array),
});

export type CheckedPiece =
  | { readonly ok: true; readonly n: number; readonly pcm: Int16Array }
  | { readonly ok: false; readonly why: Extract<SoundRefused, 'junk' | 'wrong-rate'> };

/** Whole samples of the agreed rate, or why it is no sound. Takes whatever a socket delivers. */
export function checkPiece(raw: unknown): CheckedPiece {
  const result = piece.safeParse(raw);
  if (!result.success) return { ok: false, why: 'junk' };
  const { n, rate, pcm } = result.data;
  if (rate !== RATE) return { ok: false, why: 'wrong-rate' };
  if (pcm.byteLength === 0 || pcm.byteLength % 2 !== 0 || pcm.byteLength > LONGEST_BYTES) {
    return { ok: false, why: 'junk' };
  }
  // Copied by the constructor: the bytes lie anywhere in the socket's own buffer, at an odd address too.
  return { ok: true, n, pcm: new Int16Array(new Uint8Array(pcm).buffer) };
}

/** What a sender may be ahead of real time: a stalled network delivers late sound in one burst. */
const MOST_AHEAD_SAMPLES = 3 * RATE;

/** Lets sound through at the speed at which it can have been spoken. */
export class Pace {
  #ahead = 0;
  #last: number | null = null;

  /** false: more sound than time has passed. `now` in milliseconds. */
  take(samples: number, now: number): boolean {
    const passed = this.#last === null ? 0 : Math.max(0, now - this.#last);
    this.#last = now;
    this.#ahead = Math.max(0, this.#ahead - (passed * RATE) / 1000);
    if (this.#ahead + samples > MOST_AHEAD_SAMPLES) return false;
    this.#ahead += samples;
    return true;
  }
}
