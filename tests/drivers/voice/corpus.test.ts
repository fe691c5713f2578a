import { afterAll, beforeAll, expect, it } from 'vitest';
import { openPocketsphinx, type Pocketsphinx } from '#drivers/voice/pocketsphinx.ts';
import { openSpeechModel } from '#drivers/voice/speech-model.ts';
import { listenTo, noScore, type Hearing, type Said } from '#tests/benchmarks/voice/evaluate.ts';
import { ALL, stateWith } from '#tests/benchmarks/voice/states.ts';
import { nearMisses, talk } from '#tests/benchmarks/voice/talk.ts';
import { noise, speak } from '#tests/support/speech.ts';

// A small part of what `npm run bench -- voice` measures, so that hearing does not get worse unseen. The voice is synthetic.

const VOICE = { engine: 'flite', voice: 'slt' } as const;
let recogniser: Pocketsphinx;
let hearing: Hearing;
beforeAll(() => {
  recogniser = openPocketsphinx();
  hearing = { recogniser, model: openSpeechModel() };
});
afterAll(() => recogniser.close());

const say = (texts: readonly string[], phrase: (text: string) => string | null): readonly Said[] =>
  texts.map((text, index) => ({
    pcm: speak(VOICE, text),
    phrase: phrase(text),
    expected: stateWith(phrase(text) ?? ALL[index % ALL.length] ?? '', index),
    text,
  }));

it('hears every command in a room with noise, and beside a tape gun most', () => {
  const said = say(ALL, (text) => text);
  const room = noScore();
  listenTo(hearing, said, noise('pink', 20), 20, room);
  expect([room.wrong, room.mistakes.length]).toEqual([0, expect.toSatisfy((count: number) => count <= 1)]);
  const tape = noScore();
  listenTo(hearing, said.slice(0, 10), noise('tape', 20), 20, tape);
  expect(tape.wrong).toBe(0);
  expect(tape.right).toBeGreaterThanOrEqual(7);
}, 180_000);

it('takes neither talk nor what is nearly a command for one', () => {
  const texts = [...talk('tune', 6), ...nearMisses('tune', ALL.slice(0, 6)).filter((_, index) => index % 5 === 0)];
  const score = noScore();
  listenTo(
    hearing,
    say(texts, () => null),
    noise('pink', 20),
    22,
    score,
  );
  // A last word that sounds like the right one passes now and then.
  expect(score.mistakes).toEqual(expect.toSatisfy((all: readonly string[]) => all.length <= 1));
}, 180_000);
