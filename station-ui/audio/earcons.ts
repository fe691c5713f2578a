import { soundContext } from './sound-context.ts';

/** Short sounds told apart by their rhythm, not by pitch alone. */
export const EARCONS = ['accepted', 'refused', 'attention', 'close', 'wrong-piece', 'wrong-label', 'photo'] as const;
export type Earcon = (typeof EARCONS)[number];

export interface Beat {
  /** seconds from the start */
  readonly at: number;
  readonly seconds: number;
  readonly hertz: number;
}

/** Beats at these times, each as long, going up and down between two pitches. */
function volley(at: readonly number[], seconds: number, hertz: readonly [number, number]): readonly Beat[] {
  return at.map((time, beat) => ({ at: time, seconds, hertz: hertz[beat % 2 === 0 ? 0 : 1] }));
}

/**
 * accepted: two quick taps. refused: one long and one long. attention: three even beats, the last held. close: a long
 * beat and two that come ever sooner, as of something that rolls to an edge. wrong-piece: short, short, long, and again.
 * wrong-label: two volleys of four hard beats, for a mistake that would leave with the parcel. photo: one short click.
 */
export const RHYTHMS: Readonly<Record<Earcon, readonly Beat[]>> = {
  accepted: [
    { at: 0, seconds: 0.05, hertz: 880 },
    { at: 0.09, seconds: 0.07, hertz: 1175 },
  ],
  refused: [
    { at: 0, seconds: 0.28, hertz: 220 },
    { at: 0.4, seconds: 0.34, hertz: 196 },
  ],
  attention: [
    { at: 0, seconds: 0.1, hertz: 587 },
    { at: 0.2, seconds: 0.1, hertz: 587 },
    { at: 0.4, seconds: 0.26, hertz: 587 },
  ],
  close: [
    { at: 0, seconds: 0.24, hertz: 659 },
    { at: 0.36, seconds: 0.12, hertz: 698 },
    { at: 0.54, seconds: 0.07, hertz: 740 },
    { at: 0.65, seconds: 0.05, hertz: 784 },
    { at: 0.73, seconds: 0.05, hertz: 831 },
  ],
  'wrong-piece': [
    { at: 0, seconds: 0.07, hertz: 392 },
    { at: 0.13, seconds: 0.07, hertz: 392 },
    { at: 0.26, seconds: 0.24, hertz: 294 },
    { at: 0.66, seconds: 0.07, hertz: 392 },
    { at: 0.79, seconds: 0.07, hertz: 392 },
    { at: 0.92, seconds: 0.24, hertz: 294 },
  ],
  'wrong-label': volley([0, 0.12, 0.24, 0.36, 0.8, 0.92, 1.04, 1.16], 0.09, [1480, 988]),
  photo: [{ at: 0, seconds: 0.04, hertz: 1760 }],
};

const LOUDNESS = 0.16;
const LOUDEST = 0.5;

let ends = 0;

/** When the last earcon is over, on the sound context's clock. */
export function earconEnds(): number {
  return ends;
}

/** Plays one; silent where the browser has no sound or nobody has touched the page yet. */
export function play(earcon: Earcon): void {
  const context = soundContext();
  if (context === null) return;
  const start = context.currentTime + 0.01;
  for (const beat of RHYTHMS[earcon]) {
    sound(context, start + beat.at, beat, earcon === 'wrong-label' ? LOUDEST : LOUDNESS);
    ends = Math.max(ends, start + beat.at + beat.seconds);
  }
}

function sound(on: AudioContext, from: number, beat: Beat, loudness: number): void {
  const tone = on.createOscillator();
  const gain = on.createGain();
  tone.type = 'triangle';
  tone.frequency.value = beat.hertz;
  gain.gain.setValueAtTime(0, from);
  gain.gain.linearRampToValueAtTime(loudness, from + 0.008);
  gain.gain.setValueAtTime(loudness, from + beat.seconds - 0.015);
  gain.gain.linearRampToValueAtTime(0, from + beat.seconds);
  tone.connect(gain).connect(on.destination);
  tone.start(from);
  tone.stop(from + beat.seconds + 0.02);
}
