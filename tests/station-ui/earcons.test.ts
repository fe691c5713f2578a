import { expect, it } from 'vitest';
import { EARCONS, RHYTHMS } from '#station-ui/audio/earcons.ts';
import type { Beat, Earcon } from '#station-ui/audio/earcons.ts';

/** Sounds as somebody hears them who tells no pitches: when each beat begins, and how long it lasts, in twentieths of a second. */
const rhythm = (beats: readonly Beat[]): string =>
  beats.map(({ at, seconds }) => `${String(Math.round(at * 20))}+${String(Math.round(seconds * 20))}`).join(' ');

const pairs = EARCONS.flatMap((one, index) => EARCONS.slice(index + 1).map((other) => [one, other] as const));

it.each(pairs)('%s and %s differ in rhythm, not in pitch alone', (one, other) => {
  expect(rhythm(RHYTHMS[one])).not.toBe(rhythm(RHYTHMS[other]));
});

it('accepted, refused and attention differ in the number of beats or in length by half and more', () => {
  const about = (earcon: Earcon) => {
    const beats = RHYTHMS[earcon];
    const end = Math.max(...beats.map(({ at, seconds }) => at + seconds));
    return { beats: beats.length, end, longest: Math.max(...beats.map(({ seconds }) => seconds)) };
  };
  const [accepted, refused, attention] = [about('accepted'), about('refused'), about('attention')];
  expect(refused.longest / accepted.longest).toBeGreaterThan(1.5);
  expect(refused.end / accepted.end).toBeGreaterThan(1.5);
  expect(attention.beats).not.toBe(accepted.beats);
  expect(attention.beats).not.toBe(refused.beats);
});

it('beats follow each other and none is too short to be heard', () => {
  for (const beats of Object.values(RHYTHMS)) {
    for (const [index, beat] of beats.entries()) {
      const before = beats[index - 1];
      expect(beat.at).toBeGreaterThanOrEqual(before === undefined ? 0 : before.at + before.seconds);
      // Longer than the 30 ms of attack and release together.
      expect(beat.seconds).toBeGreaterThanOrEqual(0.04);
    }
  }
});
