import { Ear, type EarOptions, type Heard } from '#drivers/voice/ear.ts';
import type { Pocketsphinx } from '#drivers/voice/pocketsphinx.ts';
import type { SpeechModel } from '#drivers/voice/speech-model.ts';
import { chain, rms, silence } from '../../support/speech.ts';
import { decideVoice, type HeardBefore } from '#shared/run/command-rules.ts';
import { commandOf } from '#shared/voice/phrases.ts';
import { Mixer } from './rooms.ts';

/** Something said, and what was possible then. */
export interface Said {
  readonly pcm: Int16Array;
  /** the phrase that it is, null for what must move nothing */
  readonly phrase: string | null;
  readonly expected: readonly string[];
  readonly text: string;
}

export interface Score {
  said: number;
  right: number;
  /** of those, what was asked for a second time because the first hearing was unsure, as at the bench */
  twice: number;
  /** another command than was said, or one although none was */
  wrong: number;
  /** milliseconds from the end of the voice to the answer, of what was right; the search's in processor time */
  readonly latencies: number[];
  /** of those, what the search took */
  readonly searches: number[];
  /** each phrase: how often it was said and how often right */
  readonly phrases: Map<string, { said: number; right: number }>;
  seconds: number;
  /** what was wrong, for whoever tunes */
  readonly mistakes: string[];
}

export function noScore(): Score {
  return {
    said: 0,
    right: 0,
    twice: 0,
    wrong: 0,
    latencies: [],
    searches: [],
    phrases: new Map(),
    seconds: 0,
    mistakes: [],
  };
}

export interface Hearing {
  readonly recogniser: Pocketsphinx;
  /** null: the level alone is the gate */
  readonly model: SpeechModel | null;
  readonly options?: EarOptions;
}

const PIECE = 512;
const LEAD = 0.5;
const BEHIND = 1;

/** Processor time of this process in milliseconds: what other programs take of the machine is not in it. */
function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/**
 * Gives what is said to an ear in a room, piece by piece as a microphone does, and counts what a bench makes of it: what it
 * hears unsurely is said once more, as it asks for.
 */
export function listenTo(hearing: Hearing, all: readonly Said[], noise: Int16Array, snr: number, score: Score): void {
  const { recogniser, model, options } = hearing;
  model?.reset();
  const ear = new Ear({ recogniser, model, now: processorMs, ...options });
  const mixer = new Mixer(noise, snr);
  const first = all[0];
  if (first === undefined) return;
  let samples = 0;
  feed(ear, mixer.alone(3, rms(first.pcm)));
  let before: HeardBefore | null = null;
  all.forEach((said, key) => {
    ear.expect({ key, phrases: said.expected });
    const end = LEAD * 16_000 + said.pcm.length;
    score.said += 1;
    const tried = phraseOf(score, said.phrase);
    tried.said += 1;
    const rejected: string[] = [];
    let answer: 'none' | 'unsure' | 'taken' = 'none';
    for (let time = 1; time === 1 || (time === 2 && answer === 'unsure' && said.phrase !== null); time += 1) {
      const sound = mixer.mix(chain(silence(LEAD), said.pcm, silence(BEHIND)), rms(said.pcm));
      const began = samples / 16;
      samples += sound.length;
      score.seconds += sound.length / 16_000;
      for (const { heard, at } of feed(ear, sound)) {
        const ms = began + at / 16;
        if (heard.type === 'rejected') rejected.push(heard.why);
        if (heard.type !== 'phrase') continue;
        const command = commandOf(heard.phrase, 'en');
        const decision = command === null ? 'take' : decideVoice(command, heard.score, before, ms);
        if (command !== null) before = { command, at: ms, taken: decision === 'take' };
        if (decision !== 'take') {
          rejected.push(`${decision}: ${heard.phrase}`);
          if (answer === 'none' && decision === 'say-again') answer = 'unsure';
          continue;
        }
        if (heard.phrase === said.phrase && answer !== 'taken') {
          score.right += 1;
          tried.right += 1;
          if (time === 2) score.twice += 1;
          score.latencies.push((at - end) / 16 + Math.max(0, heard.tookMs - heard.aheadMs));
          score.searches.push(heard.tookMs);
        } else {
          score.wrong += 1;
          score.mistakes.push(`"${said.text}" was taken for "${heard.phrase}"`);
        }
        answer = 'taken';
      }
    }
    if (answer !== 'taken' && said.phrase !== null)
      score.mistakes.push(`"${said.text}" was missed: ${rejected.join(', ') || 'not heard'}`);
  });
}

function phraseOf({ phrases }: Score, phrase: string | null): { said: number; right: number } {
  const known = phrases.get(phrase ?? '') ?? { said: 0, right: 0 };
  phrases.set(phrase ?? '', known);
  return known;
}

function feed(ear: Ear, sound: Int16Array): readonly { readonly heard: Heard; readonly at: number }[] {
  const all: { heard: Heard; at: number }[] = [];
  for (let at = 0; at < sound.length; at += PIECE) {
    for (const heard of ear.push(sound.subarray(at, at + PIECE))) all.push({ heard, at: at + PIECE });
  }
  return all;
}

/** The value below which this share of the values lie; NaN of none. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}
