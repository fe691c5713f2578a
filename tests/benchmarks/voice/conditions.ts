import type { Voice } from '../../support/speech.ts';
import { listenTo, noScore, type Hearing, type Said, type Score } from './evaluate.ts';
import { roomNoise, type Room } from './rooms.ts';
import { HARD, NATURAL, spoken } from './spoken.ts';
import { ALL, STATES, stateWith } from './states.ts';
import { nearMisses, talk, type Half } from './talk.ts';

export const SETS = { natural: NATURAL, hard: HARD } as const;
export type VoiceSet = keyof typeof SETS;
/** Whether every command is listened for, or those of the run's present state. */
export type Commands = 'all' | 'state';

/** Faster and slower than usual: nobody says a phrase twice alike. */
const TEMPOS = [1, 0.9, 1.12];

const variants = (voice: Voice): readonly Voice[] => TEMPOS.map((tempo) => (tempo === 1 ? voice : { ...voice, tempo }));

/** One listening to a half of the corpus. */
export class Corpus {
  readonly half: Half;
  readonly #noises = new Map<Room, Int16Array>();

  constructor(half: Half) {
    this.half = half;
  }

  noise(room: Room): Int16Array {
    const made = this.#noises.get(room) ?? roomNoise(room, this.half);
    this.#noises.set(room, made);
    return made;
  }

  /** Every phrase in every voice of a set at three speeds. */
  phrases(hearing: Hearing, set: VoiceSet, room: Room, snr: number, commands: Commands): Score {
    const score = noScore();
    for (const voice of SETS[set][this.half].flatMap(variants)) {
      const said = spoken(voice, ALL).map((pcm, index): Said => {
        const phrase = ALL[index] ?? '';
        const expected = commands === 'all' ? ALL : stateWith(phrase, score.said + index);
        return { pcm, phrase, expected, text: `${voice.voice} ${String(voice.tempo ?? 1)}: ${phrase}` };
      });
      listenTo(hearing, said, this.noise(room), snr, score);
    }
    return score;
  }

  /** What is almost a phrase that is possible now. */
  nearMisses(hearing: Hearing, room: Room, snr: number, commands: Commands): Score {
    const score = noScore();
    for (const voice of NATURAL[this.half]) {
      for (const [index, phrase] of ALL.entries()) {
        const expected = commands === 'all' ? ALL : stateWith(phrase, index);
        const texts = nearMisses(this.half, [phrase]).filter((text) => !ALL.includes(text));
        const said = spoken(voice, texts).map((pcm, at): Said => {
          const text = texts[at] ?? '';
          return { pcm, phrase: null, expected, text: `${voice.voice}: ${text}` };
        });
        listenTo(hearing, said, this.noise(room), snr, score);
      }
    }
    return score;
  }

  /** Talk for so many minutes while the run stands now here, now there. */
  chatter(hearing: Hearing, minutes: number, commands: Commands): Score {
    const score = noScore();
    const voices = NATURAL[this.half];
    // A sentence lasts about three seconds and a half with the pause behind it.
    const sentences = talk(this.half, minutes * 20);
    const share = Math.ceil(sentences.length / voices.length);
    for (const [index, voice] of voices.entries()) {
      const texts = sentences.slice(index * share, (index + 1) * share);
      const said = spoken(voice, texts).map((pcm, at): Said => {
        const expected = commands === 'all' ? ALL : (STATES[Math.floor(at / 5) % STATES.length] ?? ALL);
        return { pcm, phrase: null, expected, text: `${voice.voice}: ${texts[at] ?? ''}` };
      });
      listenTo(hearing, said, this.noise('pink'), 20, score);
    }
    return score;
  }
}
