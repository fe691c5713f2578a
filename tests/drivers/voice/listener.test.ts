import { readdirSync } from 'node:fs';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it, vi } from 'vitest';
import { openEar, send, until } from './support.ts';
import { Listener } from '#drivers/voice/listener.ts';
import { PHRASES } from '#shared/voice/phrases.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { chain, mixed, noise, silence, speak } from '#tests/support/speech.ts';

// The voices are synthetic: this shows that the chain works and does not get worse, not how well a person is understood.

let listener: Listener;
const troubles: string[] = [];

/** Where the process puts what it reads. */
const aside = temporaryFolder('listener');
beforeAll(() => {
  vi.stubEnv('TMPDIR', aside.path);
});
afterAll(() => {
  vi.unstubAllEnvs();
  aside.remove();
});

beforeEach(() => {
  troubles.length = 0;
  listener = new Listener({ onTrouble: (message) => troubles.push(message) });
});
afterEach(() => listener.stop());

const room = noise('pink', 6);
const said = (text: string, voice = 'slt', snr = 25) =>
  mixed(chain(silence(0.6), speak({ engine: 'flite', voice }, text), silence(0.7)), room, snr);

it('hears phrases from two voices and nothing in talk', async () => {
  const { ear, heard } = openEar(listener);
  await until(() => listener.state === 'working', 'the process');
  ear.expect({ key: 7, phrases: Object.values(PHRASES.en) });
  const phrases = [PHRASES.en.next, PHRASES.en.repeat, PHRASES.en.cancel, PHRASES.en['item-missing']];
  for (const voice of ['slt', 'rms']) {
    for (const phrase of phrases) {
      const before = heard.length;
      await send(ear, said(phrase, voice));
      await until(() => heard.length > before, `"${phrase}" in the voice ${voice}`);
      expect(heard.at(-1)).toMatchObject({ type: 'phrase', phrase, key: 7 });
    }
  }
  const talk = [
    'I told him that we should leave on Monday morning',
    'what did you have for lunch today',
    'next week we go home to see my mother',
    'the radio says it is going to rain',
  ];
  const before = heard.length;
  for (const sentence of talk) await send(ear, said(sentence));
  await send(ear, silence(3));
  await until(() => heard.length > before, 'the talk rejected');
  expect(heard.slice(before).filter((each) => each.type === 'phrase')).toEqual([]);
}, 60_000);

it('tells near misses from the phrase, and what a recording is', async () => {
  const expected = Object.values(PHRASES.en);
  expect(await listener.tryOut(expected, said(PHRASES.en.next))).toMatchObject({
    type: 'phrase',
    phrase: PHRASES.en.next,
  });
  expect(await listener.tryOut(expected, silence(2))).toBeNull();
  for (const text of ['next week', 'cancel my order', 'yes confirm the order', 'one step back home']) {
    expect((await listener.tryOut(expected, said(text)))?.type).toBe('rejected');
  }
}, 60_000);

it('hears nothing that is not expected now', async () => {
  const { ear, heard } = openEar(listener);
  await until(() => listener.state === 'working', 'the process');
  ear.expect({ key: 1, phrases: [PHRASES.en.confirm, PHRASES.en.cancel] });
  await send(ear, said(PHRASES.en.next));
  await until(() => heard.length > 0, 'an answer');
  expect(heard.map((each) => each.type)).toEqual(['rejected']);
});

it('is started again when it dies, and still knows what is expected', async () => {
  const { ear, heard, states } = openEar(listener);
  ear.expect({ key: 3, phrases: [PHRASES.en.next, PHRASES.en.back] });
  await until(() => listener.state === 'working', 'the process');
  process.kill(listener.pid ?? 0, 'SIGKILL');
  await until(() => states.includes('restarting'), 'the death told');
  expect(ear.sound(silence(0.1))).toBe(false);
  await until(() => listener.state === 'working', 'the process back');
  expect(troubles).toContain('the recogniser ended with SIGKILL');
  expect(readdirSync(aside.path).filter((name) => name.startsWith('benchfold'))).toEqual([]);
  await send(ear, said(PHRASES.en.next));
  await until(() => heard.length > 0, 'the phrase');
  expect(heard[0]).toMatchObject({ type: 'phrase', phrase: PHRASES.en.next, key: 3 });
});

it('drops sound rather than hold more than a few seconds of it', async () => {
  const { ear } = openEar(listener);
  await until(() => listener.state === 'working', 'the process');
  ear.expect({ key: 1, phrases: Object.values(PHRASES.en) });
  const pieces = Array.from({ length: 400 }, () => ear.sound(silence(0.064)));
  expect(pieces.filter(Boolean).length).toBeLessThan(100);
  await until(() => ear.sound(silence(0.064)), 'room for more');
});

it('keeps two microphones apart', async () => {
  const one = openEar(listener, 'bench-1');
  const two = openEar(listener, 'bench-2');
  await until(() => listener.state === 'working', 'the process');
  one.ear.expect({ key: 1, phrases: [PHRASES.en.next, PHRASES.en.back] });
  two.ear.expect({ key: 2, phrases: [PHRASES.en.confirm, PHRASES.en.cancel] });
  await Promise.all([send(one.ear, said(PHRASES.en.next)), send(two.ear, said(PHRASES.en.cancel, 'rms'))]);
  await until(() => one.heard.length > 0 && two.heard.length > 0, 'both');
  expect(one.heard).toMatchObject([{ phrase: PHRASES.en.next, key: 1 }]);
  expect(two.heard).toMatchObject([{ phrase: PHRASES.en.cancel, key: 2 }]);
});
