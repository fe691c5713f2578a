/** Short sounds told apart by their rhythm, not by pitch alone. */
export const EARCONS = ['accepted', 'refused', 'attention', 'wrong-label'] as const;
export type Earcon = (typeof EARCONS)[number];

export interface Beat {
  /** seconds from the start */
  readonly at: number;
  readonly seconds: number;
  readonly hertz: number;
}

/**
 * accepted: two quick taps. refused: one long and one long. attention: three even beats, the last held. wrong-label: two
 * volleys of four hard beats, for a mistake that would leave with the parcel.
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
  'wrong-label': [0, 0.12, 0.24, 0.36, 0.8, 0.92, 1.04, 1.16].map((at, beat) => ({
    at,
    seconds: 0.09,
    hertz: beat % 2 === 0 ? 1480 : 988,
  })),
};

const LOUDNESS = 0.16;
const LOUDEST = 0.5;

let context: AudioContext | null = null;

/** Plays one; silent where the browser has no sound or nobody has touched the page yet. */
export function play(earcon: Earcon): void {
  if (typeof AudioContext === 'undefined') return;
  context ??= new AudioContext();
  if (context.state === 'suspended') {
    // Browsers let a page sound only after a touch or a key; a sound kept for later would be a lie then.
    void context.resume();
    return;
  }
  const start = context.currentTime + 0.01;
  for (const beat of RHYTHMS[earcon]) {
    sound(context, start + beat.at, beat, earcon === 'wrong-label' ? LOUDEST : LOUDNESS);
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
