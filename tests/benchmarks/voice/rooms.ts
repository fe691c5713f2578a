import { chain, noise, rms, silence } from '../../support/speech.ts';
import { spoken, NATURAL } from './spoken.ts';
import { talk, type Half } from './talk.ts';

/** What sounds in the room beside the one who speaks. */
export const ROOMS = ['pink', 'white', 'tape', 'babble'] as const;
export type Room = (typeof ROOMS)[number];

const SECONDS = 97;

/** A minute and a half of a room's noise; the same in every run. */
export function roomNoise(room: Room, half: Half): Int16Array {
  return room === 'babble' ? babble(half) : noise(room, SECONDS);
}

/** A radio in the next room: every voice of the half says something else at the same time, without a pause. */
function babble(half: Half): Int16Array {
  const length = SECONDS * 16_000;
  const sum = new Float32Array(length);
  for (const [index, voice] of [...NATURAL[half], ...NATURAL[half]].entries()) {
    const sentences = talk(half, 60).slice(index * 9, index * 9 + 24);
    let said = chain(...spoken(voice, sentences));
    while (said.length < length) said = chain(said, said);
    for (let at = 0; at < length; at++) sum[at] = (sum[at] ?? 0) + (said[at] ?? 0) / 6;
  }
  return Int16Array.from(sum, (value) => Math.round(value));
}

/** Puts sounds one after another into a room whose noise goes on, as a microphone there would give it. */
export class Mixer {
  readonly #noise: Int16Array;
  readonly #loud: number;
  readonly #snr: number;
  #at = 0;

  constructor(noise: Int16Array, snr: number) {
    this.#noise = noise;
    this.#loud = rms(noise);
    this.#snr = snr;
  }

  /** `spokenRms`: how loud the voice is while it sounds; the noise stands `snr` dB below it. */
  mix(sound: Int16Array, spokenRms: number): Int16Array {
    const factor = spokenRms / this.#loud / 10 ** (this.#snr / 20);
    const mixed = sound.map((sample) => {
      const under = this.#noise[this.#at] ?? 0;
      this.#at = (this.#at + 1) % this.#noise.length;
      return Math.max(-32_768, Math.min(32_767, Math.round(0.5 * (sample + factor * under))));
    });
    return mixed;
  }

  /** Only the room. */
  alone(seconds: number, spokenRms: number): Int16Array {
    return this.mix(silence(seconds), spokenRms);
  }
}
