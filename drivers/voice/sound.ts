/** The only form of sound the recogniser takes. */
export const SAMPLE_RATE = 16_000;
/** One window of the speech model, 32 ms. */
export const FRAME = 512;
export const FRAME_MS = (FRAME * 1000) / SAMPLE_RATE;

/** Level of a frame in dB below the loudest sine that fits; -100 for silence. */
export function levelOf(frame: Int16Array): number {
  let sum = 0;
  for (const sample of frame) sum += sample * sample;
  const meanSquare = sum / Math.max(1, frame.length) / (32_768 * 32_768);
  return Math.max(-100, 10 * Math.log10(meanSquare * 2 + 1e-12));
}

/** How loud the room and the voice in a recording are: levels that a tenth and nine tenths of its frames stay under. */
export function loudness(pcm: Int16Array): { readonly floorDb: number; readonly voiceDb: number } {
  const levels: number[] = [];
  for (let at = 0; at + FRAME <= pcm.length; at += FRAME) levels.push(levelOf(pcm.subarray(at, at + FRAME)));
  levels.sort((a, b) => a - b);
  const at = (share: number) => Math.round(levels[Math.floor(share * (levels.length - 1))] ?? -100);
  return { floorDb: at(0.1), voiceDb: at(0.9) };
}

/** How many of the samples stand at the end of the scale: what is cut off there cannot be recognised. */
export function clippedShare(pcm: Int16Array): number {
  let clipped = 0;
  for (const sample of pcm) if (sample >= 32_760 || sample <= -32_760) clipped += 1;
  return clipped / Math.max(1, pcm.length);
}

/** Cuts a stream of sound into frames of one length; what is left over waits for the next piece. */
export class Framer {
  #rest = new Int16Array(0);

  *push(pcm: Int16Array): Generator<Int16Array> {
    const all = new Int16Array(this.#rest.length + pcm.length);
    all.set(this.#rest);
    all.set(pcm, this.#rest.length);
    let at = 0;
    for (; at + FRAME <= all.length; at += FRAME) yield all.subarray(at, at + FRAME);
    this.#rest = all.slice(at);
  }

  reset(): void {
    this.#rest = new Int16Array(0);
  }
}

/** Several pieces of sound as one. */
export function joined(pieces: readonly Int16Array[]): Int16Array {
  const all = new Int16Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}
