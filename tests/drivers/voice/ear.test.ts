import { beforeEach, expect, it } from 'vitest';
import { Ear } from '#drivers/voice/ear.ts';
import { GATE } from '#drivers/voice/gate.ts';
import type { Pocketsphinx } from '#drivers/voice/pocketsphinx.ts';
import { FRAME } from '#drivers/voice/sound.ts';
import { seeded } from '#tests/support/seeded.ts';

// The recogniser is a stand-in that answers what it is told to: this is about when it is asked, not what it hears.

const PHRASE = 'next item';
let searched: number[];
let answer: string;
let ear: Ear;

beforeEach(() => {
  searched = [];
  answer = PHRASE;
  const recogniser: Pocketsphinx = {
    prepare: () => undefined,
    recognise: (name, pcm) => {
      if (!name.startsWith('near')) searched.push(pcm.length / FRAME);
      const to = Math.round(pcm.length / 160) - 25;
      return { text: answer, words: [{ word: answer, from: 20, to }], score: -1000 };
    },
    close: () => undefined,
  };
  ear = new Ear({ recogniser, model: null, now: () => 0 });
  ear.expect({ key: 1, phrases: [PHRASE] });
});

const random = seeded(3);
const sound = (ms: number, loud: number) =>
  Int16Array.from({ length: ms * 16 }, () => Math.round((random() - 0.5) * loud));
const room = (ms: number) => sound(ms, 40);
const voice = (ms: number) => sound(ms, 8000);
const hear = (...pieces: readonly Int16Array[]) => pieces.flatMap((piece) => ear.push(piece));

it('searches in the pause and answers at its end, with no second search', () => {
  const heard = hear(room(1500), voice(700), room(260));
  expect([heard, searched.length]).toEqual([[], 1]);
  expect(hear(room(200))).toMatchObject([{ type: 'phrase', phrase: PHRASE, aheadMs: GATE.hangOverMs - GATE.pauseMs }]);
  expect(searched).toHaveLength(1);
});

it('forgets what it took for all of it when the voice goes on', () => {
  hear(room(1500), voice(700), room(260));
  answer = 'next one of the items';
  expect(hear(voice(600), room(600))).toMatchObject([{ type: 'rejected', why: 'no-phrase' }]);
  expect(searched).toHaveLength(2);
  expect(searched[1]).toBeGreaterThan(searched[0] ?? 0);
});

it('searches anew when something else is expected by the end of the pause', () => {
  hear(room(1500), voice(700), room(260));
  ear.expect({ key: 2, phrases: [PHRASE] });
  expect(hear(room(200))).toMatchObject([{ type: 'phrase', key: 2, aheadMs: 0 }]);
  expect(searched).toHaveLength(2);
});

it('answers nothing of what was begun before it was reset in the pause', () => {
  hear(room(1500), voice(700), room(260));
  ear.reset();
  expect(hear(room(1000))).toEqual([]);
});

it('says once of ten minutes of talk without a pause that it is too long, and searches none of it', () => {
  hear(room(1500));
  const minute = voice(60_000);
  const heard = Array.from({ length: 10 }, () => ear.push(minute)).flat();
  expect(heard).toMatchObject([{ type: 'rejected', why: 'too-long' }]);
  expect(searched).toEqual([]);
});
