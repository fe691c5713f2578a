import { Ear } from '#drivers/voice/ear.ts';
import { loudness } from '#drivers/voice/sound.ts';
import { enrolmentOf, type Take } from '#shared/voice/enrolment.ts';
import { ALTERNATIVES, PHRASES } from '#shared/voice/phrases.ts';
import { chain, rms, silence, type Voice } from '../../support/speech.ts';
import { listenTo, noScore, type Hearing, type Said, type Score } from './evaluate.ts';
import { Mixer, roomNoise, type Room } from './rooms.ts';
import { HARD, NATURAL, spoken } from './spoken.ts';
import { ALL, STATES, stateWith } from './states.ts';
import { longTalk, nearMisses, type Half } from './talk.ts';

/** `varied`: the natural voices as if their throats were shorter and longer, which makes other speakers of them. */
export const SETS = { natural: NATURAL, varied: NATURAL, hard: HARD } as const;
export type VoiceSet = keyof typeof SETS;
/** Whether every command is listened for, or those of the run's present state. */
export type Commands = 'all' | 'state';

/** Faster and slower than usual: nobody says a phrase twice alike. */
const TEMPOS = [1, 0.9, 1.12];

const THROATS = [0.93, 1.08];

const variants = (voice: Voice, tempos: number, throats: readonly number[] = [1]): readonly Voice[] =>
  TEMPOS.slice(0, tempos).flatMap((tempo) =>
    throats.map((throat) => ({ ...voice, ...(tempo === 1 ? {} : { tempo }), ...(throat === 1 ? {} : { throat }) })),
  );

/** One listening to a half of the corpus. */
export class Corpus {
  readonly half: Half;
  /** every speed, not two of the three */
  readonly #whole: boolean;
  readonly #noises = new Map<Room, Int16Array>();

  constructor(half: Half, whole = false) {
    this.half = half;
    this.#whole = whole;
  }

  noise(room: Room): Int16Array {
    const made = this.#noises.get(room) ?? roomNoise(room, this.half);
    this.#noises.set(room, made);
    return made;
  }

  /** Every phrase in every voice of a set at two or three speeds. */
  phrases(hearing: Hearing, set: VoiceSet, room: Room, snr: number, commands: Commands): Score {
    const score = noScore();
    const throats = set === 'varied' ? THROATS : [1];
    for (const voice of SETS[set][this.half].flatMap((each) => variants(each, this.#whole ? 3 : 2, throats))) {
      const said = spoken(voice, ALL).map((pcm, index): Said => {
        const phrase = ALL[index] ?? '';
        const expected = commands === 'all' ? ALL : stateWith(phrase, score.said + index);
        return {
          pcm,
          phrase,
          expected,
          text: `${voice.voice} ${String(voice.tempo ?? 1)} ${String(voice.throat ?? 1)}: ${phrase}`,
        };
      });
      listenTo(hearing, said, this.noise(room), snr, score);
    }
    return score;
  }

  /**
   * With and without a trial of each voice: three takes of both phrases of each command in a noisy room say which one
   * is said from then on; both are then said at other speeds in that room.
   */
  enrolled(hearing: Hearing, room: Room, snr: number): { readonly without: Score; readonly enrolled: Score } {
    const [without, enrolled] = [noScore(), noScore()];
    const seconds = Object.values(ALTERNATIVES);
    for (const voice of NATURAL[this.half]) {
      const takes: Take[] = [];
      for (const phrase of [...ALL, ...seconds]) {
        for (const tempo of [1, 0.95, 1.06]) {
          const [pcm = new Int16Array(0)] = spoken({ ...voice, tempo }, [phrase]);
          const mixer = new Mixer(this.noise(room).subarray(takes.length * 4000), snr);
          const sound = mixer.mix(chain(silence(1), pcm, silence(0.6)), rms(pcm));
          const heard = new Ear({ ...hearing, now: () => performance.now() }).tryOut([...ALL, ...seconds], sound);
          takes.push({ phrase, heard: heard?.type === 'phrase' ? heard.phrase : null, ...loudness(sound) });
        }
      }
      const chosen = new Map(enrolmentOf(takes).commands.map(({ command, phrase }) => [PHRASES.en[command], phrase]));
      for (const tempo of [0.9, 1.12]) {
        const say = (phrases: readonly string[], also: (phrase: string) => readonly string[], score: Score) =>
          listenTo(
            hearing,
            spoken({ ...voice, tempo }, phrases).map((pcm, at): Said => {
              const first = ALL[at] ?? '';
              const expected = stateWith(first, at);
              return {
                pcm,
                phrase: phrases[at] ?? '',
                expected: [...expected, ...expected.flatMap(also)],
                text: first,
              };
            }),
            this.noise(room),
            snr,
            score,
          );
        say(ALL, () => [], without);
        const other = (phrase: string) => {
          const said = chosen.get(phrase);
          return said === undefined || said === phrase ? [] : [said];
        };
        say(
          ALL.map((phrase) => chosen.get(phrase) ?? phrase),
          other,
          enrolled,
        );
      }
    }
    return { without, enrolled };
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
    // Now one, now another speaks, faster or slower; no sentence is said twice.
    const each = NATURAL[this.half].map((voice) => variants(voice, 3, [1, ...THROATS]));
    const voices = (each[0] ?? []).flatMap((_, at) => each.flatMap((all) => all[at] ?? []));
    // A sentence lasts about three seconds with the pause behind it.
    const sentences = longTalk(this.half, minutes * 18);
    const share = Math.ceil(sentences.length / voices.length);
    for (const [index, voice] of voices.entries()) {
      const texts = sentences.slice(index * share, (index + 1) * share);
      const said = spoken(voice, texts).map((pcm, at): Said => {
        const expected = commands === 'all' ? ALL : (STATES[Math.floor(at / 5) % STATES.length] ?? ALL);
        return { pcm, phrase: null, expected, text: `${voice.voice}: ${texts[at] ?? ''}` };
      });
      listenTo(hearing, said, this.noise('pink'), 20, score);
      if (score.seconds >= minutes * 60) break;
    }
    return score;
  }
}
