import { Ear, type EarOptions, type Heard } from '#drivers/voice/ear.ts';
import type { Pocketsphinx } from '#drivers/voice/pocketsphinx.ts';
import type { SpeechModel } from '#drivers/voice/speech-model.ts';
import { chain, rms, silence } from '../../support/speech.ts';
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
  /** another command than was said, or one although none was */
  wrong: number;
  /** milliseconds from the end of the voice to the answer, of what was right */
  readonly latencies: number[];
  seconds: number;
  /** what was wrong, for whoever tunes */
  readonly mistakes: string[];
}

export function noScore(): Score {
  return { said: 0, right: 0, wrong: 0, latencies: [], seconds: 0, mistakes: [] };
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

/** Gives what is said to an ear in a room, piece by piece as a microphone does, and counts what it makes of it. */
export function listenTo(hearing: Hearing, all: readonly Said[], noise: Int16Array, snr: number, score: Score): void {
  const { recogniser, model, options } = hearing;
  model?.reset();
  const ear = new Ear({ recogniser, model, now: () => performance.now(), ...options });
  const mixer = new Mixer(noise, snr);
  const first = all[0];
  if (first === undefined) return;
  feed(ear, mixer.alone(3, rms(first.pcm)));
  all.forEach((said, key) => {
    ear.expect({ key, phrases: said.expected });
    const sound = mixer.mix(chain(silence(LEAD), said.pcm, silence(BEHIND)), rms(said.pcm));
    const end = LEAD * 16_000 + said.pcm.length;
    score.said += 1;
    score.seconds += sound.length / 16_000;
    let answered = false;
    const rejected: string[] = [];
    for (const { heard, at } of feed(ear, sound)) {
      if (heard.type === 'rejected') {
        rejected.push(heard.why);
        continue;
      }
      if (heard.type !== 'phrase') continue;
      if (heard.phrase === said.phrase && !answered) {
        score.right += 1;
        score.latencies.push((at - end) / 16 + heard.tookMs);
      } else {
        score.wrong += 1;
        score.mistakes.push(`"${said.text}" was taken for "${heard.phrase}"`);
      }
      answered = true;
    }
    if (!answered && said.phrase !== null)
      score.mistakes.push(`"${said.text}" was missed: ${rejected.join(', ') || 'not heard'}`);
  });
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
