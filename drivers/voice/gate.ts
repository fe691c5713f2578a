import { clippedShare, FRAME_MS, joined, levelOf } from './sound.ts';

export interface GateOptions {
  /** how far above the room's floor a sound must rise to begin an utterance, in dB */
  readonly onDb: number;
  /** and below which it counts as silence again */
  readonly offDb: number;
  /** a voice found by the speech model must at least stand this far above the floor */
  readonly voiceDb: number;
  readonly preRollMs: number;
  /** silence after which what was said may be all: it is worth looking at while the rest of the silence runs */
  readonly pauseMs: number;
  /** silence after which it is all */
  readonly hangOverMs: number;
  /** shorter sounds are knocks */
  readonly shortestMs: number;
  /** longer ones are talk, or the radio */
  readonly longestMs: number;
}

export const GATE: GateOptions = {
  onDb: 9,
  offDb: 6,
  voiceDb: 3,
  preRollMs: 224,
  pauseMs: 192,
  hangOverMs: 352,
  shortestMs: 160,
  longestMs: 2500,
};

export type GateOutcome =
  /** one utterance, from a little before it began to the end of the silence behind it */
  | { readonly type: 'utterance'; readonly pcm: Int16Array; readonly levelDb: number; readonly floorDb: number }
  | { readonly type: 'rejected'; readonly why: 'too-long' | 'too-short' | 'too-quiet' | 'clipped' };

/** More than this share of samples at the end of the scale is a microphone that is turned up too far. */
const CLIPPED = 0.02;
/** Shorter than this, what the model takes for a low voice often is none. */
const MURMUR_MS = 400;
const FLOOR_FALLS = 0.2;
const FLOOR_RISES = 0.02;
const FLOOR_RISES_UNDER_A_VOICE = 0.002;
const FLOOR_AT_FIRST = -60;

/**
 * Cuts a stream of frames into utterances. What it does depends on the frames alone. It holds one utterance of the longest
 * length at most, however long somebody talks.
 */
export class Gate {
  readonly #options: GateOptions;
  #voiceDb: number;
  #floor = FLOOR_AT_FIRST;
  #seen = 0;
  #before: Int16Array[] = [];
  #held: Int16Array[] = [];
  #voiced = 0;
  #silent = 0;
  #loudest = -100;
  /** how long a voice too low to be taken has been going on */
  #murmured = 0;
  #state: 'closed' | 'open' | 'overrun' = 'closed';

  constructor(options: GateOptions = GATE) {
    this.#options = options;
    this.#voiceDb = options.voiceDb;
  }

  get open(): boolean {
    return this.#state === 'open';
  }

  /** All of the utterance so far where its silence has just become a pause; null at every other frame. */
  paused(): Int16Array | null {
    const { pauseMs, shortestMs } = this.#options;
    const just = this.#silent >= pauseMs && this.#silent - FRAME_MS < pauseMs;
    return this.#state === 'open' && just && this.#voiced >= shortestMs ? joined(this.#held) : null;
  }

  get floorDb(): number {
    return this.#floor;
  }

  /** How far a voice must stand above the floor from now on; undefined for the usual. */
  voiceAbove(db: number | undefined): void {
    this.#voiceDb = db ?? this.#options.voiceDb;
  }

  reset(): void {
    this.#before = [];
    this.#close();
  }

  /**
   * Takes one frame. `voice` is what the speech model makes of it; null without a model, then the level alone decides.
   */
  push(frame: Int16Array, voice: boolean | null): GateOutcome | null {
    const level = levelOf(frame);
    const sounding = this.#sounding(level, voice);
    this.#follow(level, sounding);
    if (this.#state === 'closed') return this.#whileClosed(frame, level, sounding, voice === true && !sounding);
    this.#silent = sounding ? 0 : this.#silent + FRAME_MS;
    if (sounding) this.#voiced += FRAME_MS;
    this.#loudest = Math.max(this.#loudest, level);
    const over = this.#silent >= this.#options.hangOverMs;
    if (this.#state === 'overrun') {
      if (over) this.#close();
      return null;
    }
    this.#held.push(frame.slice());
    if (over) return this.#utterance();
    // The silence behind it and the sound before it are not part of its length.
    if (this.#held.length * FRAME_MS - this.#options.preRollMs - this.#silent > this.#options.longestMs) {
      this.#held = [];
      this.#state = 'overrun';
      return { type: 'rejected', why: 'too-long' };
    }
    return null;
  }

  #sounding(level: number, voice: boolean | null): boolean {
    const above = level - this.#floor;
    if (voice === null) return above >= (this.#state === 'closed' ? this.#options.onDb : this.#options.offDb);
    return voice && above >= this.#voiceDb;
  }

  #follow(level: number, sounding: boolean): void {
    // The first second finds the floor quickly, whatever the microphone's gain.
    const first = this.#seen < 8;
    this.#seen += 1;
    const rate = level < this.#floor ? FLOOR_FALLS : first ? 0.5 : sounding ? FLOOR_RISES_UNDER_A_VOICE : FLOOR_RISES;
    this.#floor += (level - this.#floor) * rate;
  }

  #whileClosed(frame: Int16Array, level: number, sounding: boolean, murmur: boolean): GateOutcome | null {
    this.#before.push(frame.slice());
    if (!sounding) {
      const most = Math.ceil(this.#options.preRollMs / FRAME_MS);
      if (this.#before.length > most) this.#before = this.#before.slice(-most);
      return this.#murmur(murmur);
    }
    this.#state = 'open';
    this.#murmured = 0;
    this.#held = this.#before;
    this.#before = [];
    this.#voiced = FRAME_MS;
    this.#silent = 0;
    this.#loudest = level;
    return null;
  }

  /** A voice of a phrase's length that stayed too low is told of once, when it ends. */
  #murmur(on: boolean): GateOutcome | null {
    const lasted = this.#murmured;
    this.#murmured = on ? lasted + FRAME_MS : 0;
    return !on && lasted >= MURMUR_MS && lasted <= this.#options.longestMs
      ? { type: 'rejected', why: 'too-quiet' }
      : null;
  }

  #utterance(): GateOutcome {
    const pcm = joined(this.#held);
    const voiced = this.#voiced;
    const levelDb = this.#loudest;
    this.#close();
    if (voiced < this.#options.shortestMs) return { type: 'rejected', why: 'too-short' };
    if (clippedShare(pcm) > CLIPPED) return { type: 'rejected', why: 'clipped' };
    return { type: 'utterance', pcm, levelDb, floorDb: this.#floor };
  }

  #close(): void {
    this.#state = 'closed';
    this.#held = [];
    this.#voiced = 0;
    this.#silent = 0;
    this.#loudest = -100;
  }
}
