import { judgeDigits, prepareDigits } from './digits.ts';
import { grammarText, nearText } from './grammar.ts';
import { GATE, Gate, type GateOptions } from './gate.ts';
import { scoreAFrame } from './hypothesis.ts';
import type { Hypothesis, Pocketsphinx } from './pocketsphinx.ts';
import { Framer } from './sound.ts';
import type { SpeechModel } from './speech-model.ts';

/** What may be said now. `key` comes back with what was heard, so that a late answer is told from a timely one. */
export interface Expected {
  readonly key: number;
  readonly phrases: readonly string[];
  /** how far above the room's floor a voice must stand here, in dB; without it the usual */
  readonly gateDb?: number;
  /** digits too, one or several at once */
  readonly digits?: true;
}

export type Heard =
  /** one of the expected phrases, nothing before it and nothing behind it */
  | ({
      readonly type: 'phrase';
      readonly phrase: string;
      readonly key: number;
      readonly score: number;
    } & Took)
  /** '0' to '9', in the order in which they were said */
  | ({
      readonly type: 'digits';
      readonly digits: string;
      readonly key: number;
      readonly score: number;
    } & Took)
  | ({ readonly type: 'rejected'; readonly why: RejectedWhy } & Took);

/** How long the search took, and how much of the silence that ends what was said was still to come when it began. */
interface Took {
  readonly tookMs: number;
  readonly aheadMs: number;
}

export type RejectedWhy =
  | 'too-long'
  | 'too-short'
  | 'too-quiet'
  | 'clipped'
  /** talk: it is explained better by common words */
  | 'no-phrase'
  /** sounds like a phrase, but not enough */
  | 'near-miss';

export interface EarOptions {
  readonly gate?: GateOptions;
}

export interface EarParts extends EarOptions {
  readonly recogniser: Pocketsphinx;
  readonly model: SpeechModel | null;
  readonly now: () => number;
}

/** Silence that ends whatever a recording ends with: longer than the gate waits. */
const CLOSING_SAMPLES = 9600;

/** The gate, the search and the second look of one microphone. */
export class Ear {
  readonly #parts: EarParts;
  readonly #gate: Gate;
  readonly #framer = new Framer();
  #expected: Expected = { key: 0, phrases: [] };
  #search: string | null = null;
  /** what was said up to a pause is, if nothing follows */
  #guess: Heard | null = null;

  constructor(parts: EarParts) {
    this.#parts = parts;
    this.#gate = new Gate(parts.gate);
  }

  get speaking(): boolean {
    return this.#gate.open;
  }

  expect(expected: Expected): void {
    this.#guess = null;
    this.#expected = expected;
    this.#gate.voiceAbove(expected.gateDb);
    this.#search = searchFor(this.#parts.recogniser, expected.phrases);
    if (expected.digits === true) prepareDigits(this.#parts.recogniser);
  }

  /** Forgets what was begun: sound is missing, or the station itself spoke. */
  reset(): void {
    this.#guess = null;
    this.#gate.reset();
    this.#framer.reset();
    this.#parts.model?.reset();
  }

  /** What a whole recording is: the phrase in it, else why none was made out; null where nothing sounded. */
  tryOut(phrases: readonly string[], pcm: Int16Array): Heard | null {
    this.expect({ key: 0, phrases });
    const all = [...this.push(pcm), ...this.push(new Int16Array(CLOSING_SAMPLES))];
    return all.find((each) => each.type === 'phrase') ?? all.at(-1) ?? null;
  }

  push(pcm: Int16Array): readonly Heard[] {
    const heard: Heard[] = [];
    for (const frame of this.#framer.push(pcm)) {
      const outcome = this.#gate.push(frame, this.#parts.model?.voice(frame) ?? null);
      if (outcome === null) {
        // Searched while the silence runs on, the answer is there when it ends.
        const begun = this.#gate.paused();
        if (begun !== null) this.#guess = this.#recognise(begun, this.#options.pauseMs);
        continue;
      }
      if (outcome.type === 'rejected') heard.push({ type: 'rejected', why: outcome.why, tookMs: 0, aheadMs: 0 });
      else heard.push(this.#certain() ?? this.#recognise(outcome.pcm, this.#options.hangOverMs));
      this.#guess = null;
    }
    return heard;
  }

  /** What was made out in the pause, unless it was nearly a phrase: then all of the silence may tell more. */
  #certain(): Heard | null {
    return this.#guess?.type === 'rejected' && this.#guess.why === 'near-miss' ? null : this.#guess;
  }

  get #options(): GateOptions {
    return this.#parts.gate ?? GATE;
  }

  /** `silenceMs`: how much silence is at its end. */
  #recognise(pcm: Int16Array, silenceMs: number): Heard {
    const { recogniser, now } = this.#parts;
    const began = now();
    const aheadMs = this.#options.hangOverMs - silenceMs;
    if (this.#search === null) return { type: 'rejected', why: 'no-phrase', tookMs: 0, aheadMs };
    const verdict = judge(recogniser, this.#search, this.#expected.phrases, pcm, silenceMs);
    // A phrase goes first, and what nearly was one is no number.
    const open = verdict.type === 'no-phrase' && verdict.why === 'no-phrase' && this.#expected.digits === true;
    const digits = open ? judgeDigits(recogniser, pcm) : null;
    const took = { tookMs: now() - began, aheadMs };
    const { key } = this.#expected;
    if (digits !== null) return { type: 'digits', ...digits, key, ...took };
    return verdict.type === 'phrase' ? { ...verdict, key, ...took } : { type: 'rejected', why: verdict.why, ...took };
  }
}

/** A search for each set of phrases is made once; there are as many sets as there are kinds of steps. */
function searchFor(recogniser: Pocketsphinx, phrases: readonly string[]): string | null {
  if (phrases.length === 0) return null;
  const name = [...phrases].sort().join('|');
  recogniser.prepare(name, () => grammarText('search', phrases));
  // Made now, while nobody waits for an answer.
  for (const phrase of phrases) recogniser.prepare(nearOf(phrase), () => nearText('search', phrase));
  return name;
}

const nearOf = (phrase: string): string => `near ${phrase}`;

type Verdict =
  /** `score`: of each hundredth of a second of speech */
  | { readonly type: 'phrase'; readonly phrase: string; readonly score: number }
  | { readonly type: 'no-phrase'; readonly why: 'no-phrase' | 'near-miss' };

/** What the gate leaves of silence before an utterance, in frames of a hundredth of a second. */
const GATE_LEAVES_BEFORE = 23;
/** The model calls a voice over this much later. */
const MODEL_LAGS = 1;
/** Between the words of a phrase people pause for less. */
const LONGEST_PAUSE = 40;

/** What an utterance with so much silence at its end is: exactly one of the phrases, or nothing that may move a run. */
function judge(
  recogniser: Pocketsphinx,
  search: string,
  phrases: readonly string[],
  pcm: Int16Array,
  silenceMs: number,
): Verdict {
  const found = recogniser.recognise(search, pcm);
  if (!phrases.includes(found.text)) return { type: 'no-phrase', why: 'no-phrase' };
  if (silenceInside(found, silenceMs) > LONGEST_PAUSE) return { type: 'no-phrase', why: 'near-miss' };
  if (recogniser.recognise(nearOf(found.text), pcm).text !== found.text) return { type: 'no-phrase', why: 'near-miss' };
  return { type: 'phrase', phrase: found.text, score: scoreAFrame(found) };
}

/**
 * The longest stretch that the search calls silence although it lies between words or is more than the gate leaves at
 * either end, in frames: there the rest of a sentence hides.
 */
function silenceInside({ words }: Hypothesis, silenceMs: number): number {
  const spoken = words.filter((each) => !/^[<(]/.test(each.word));
  const first = spoken[0]?.from ?? 0;
  const last = spoken.at(-1)?.to ?? 0;
  const end = words.at(-1)?.to ?? 0;
  let longest = Math.max(first - GATE_LEAVES_BEFORE, end - last - silenceMs / 10 - MODEL_LAGS);
  for (const [index, each] of spoken.entries()) {
    const next = spoken[index + 1];
    if (next !== undefined) longest = Math.max(longest, next.from - each.to - 1);
  }
  return longest;
}
