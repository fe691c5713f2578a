import { mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { Speech, type SpeechParts } from '#server/speech/speech.ts';
import { MemoryShelf } from '#server/speech/memory-shelf.ts';
import { SpeechError } from '#drivers/speech/speech-error.ts';
import { Synthesiser, type ToSay } from '#drivers/speech/synthesiser.ts';

let folder: string;
let asked: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'benchfold-speech-'));
  asked = [];
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The real synthesiser, which notes what it was asked for. */
function counting(version = 'one'): SpeechParts['synthesiser'] {
  const real = new Synthesiser();
  return {
    version: () => Promise.resolve(version),
    render: (toSay) => {
      asked.push(toSay.text);
      return real.render(toSay);
    },
  };
}
const speechOf = (change: Partial<SpeechParts> = {}) => new Speech({ synthesiser: counting(), folder, ...change });
const say = (text: string, change: Partial<ToSay> = {}): ToSay => ({
  text,
  language: 'en',
  wordsPerMinute: 170,
  ...change,
});

it('makes a sentence once: it is kept in memory, and on disk for the next start', async () => {
  const speech = speechOf();
  const first = await speech.sound(say('Right piece.'));
  expect(await speech.sound(say('Right  piece. '))).toEqual(first);
  expect(await speechOf().sound(say('Right piece.'))).toEqual(first);
  expect(asked).toEqual(['Right piece.']);
});

it('makes a kept sound anew that was cut short or is something else', async () => {
  const whole = await speechOf().sound(say('Right piece.'));
  const [name = ''] = readdirSync(folder);
  for (const damaged of [whole.subarray(0, 900), Buffer.from('<html>'), Buffer.alloc(0)]) {
    writeFileSync(join(folder, name), damaged);
    expect(await speechOf().sound(say('Right piece.'))).toEqual(whole);
  }
});

it('makes it anew in another language, at another speed and after the synthesiser was renewed', async () => {
  const speech = speechOf();
  await speech.sound(say('no'));
  await speech.sound(say('no', { language: 'es' }));
  await speech.sound(say('no', { wordsPerMinute: 200 }));
  await speechOf({ synthesiser: counting('two') }).sound(say('no'));
  expect(asked).toHaveLength(4);
});

it('makes a sentence that two screens ask for at once only once', async () => {
  const speech = speechOf();
  const [a, b] = await Promise.all([speech.sound(say('Stop. Wrong label.')), speech.sound(say('Stop. Wrong label.'))]);
  expect(a).toBe(b);
  expect(asked).toHaveLength(1);
});

it('keeps no more on disk than it may, the newest longest', async () => {
  const one = (await speechOf().sound(say('One.'))).length;
  const speech = speechOf({ diskBytes: one * 3, memoryBytes: one * 2 });
  for (const text of ['Two.', 'Three.', 'Four.', 'Five.', 'Six.']) await speech.sound(say(text));
  const bytes = readdirSync(folder).reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
  expect(bytes).toBeLessThanOrEqual(one * 3);
  asked = [];
  await speechOf().sound(say('Six.'));
  expect(asked).toEqual([]);
});

it('speaks although nothing can be kept', async () => {
  const blocked = join(folder, 'a-file');
  writeFileSync(blocked, '');
  const sound = await speechOf({ folder: join(blocked, 'below') }).sound(say('Right piece.'));
  expect(sound.length).toBeGreaterThan(10_000);
});

it('throws the least used out of memory first', () => {
  const shelf = new MemoryShelf(30);
  shelf.put('a', Buffer.alloc(10));
  shelf.put('b', Buffer.alloc(10));
  shelf.put('c', Buffer.alloc(10));
  shelf.get('a');
  shelf.put('d', Buffer.alloc(10));
  expect([shelf.get('b'), shelf.bytes]).toEqual([null, 30]);
  expect(shelf.get('a')).not.toBeNull();
  shelf.put('huge', Buffer.alloc(31));
  expect(shelf.get('huge')).toBeNull();
});

it('refuses in words when too many wait, and goes on', async () => {
  const waiting: (() => void)[] = [];
  const slow: SpeechParts['synthesiser'] = {
    version: () => Promise.resolve('slow'),
    render: (toSay) => new Promise((done) => waiting.push(() => done(Buffer.from(toSay.text)))),
  };
  const speech = speechOf({ synthesiser: slow });
  const refused: unknown[] = [];
  const answers = Array.from({ length: 40 }, (_, index) =>
    speech.sound(say(`sentence ${String(index)}`)).then(
      () => 'made',
      (error: unknown) => {
        refused.push(error);
        return error instanceof SpeechError ? error.code : 'other';
      },
    ),
  );
  const ended = Promise.all(answers);
  // All have asked before any is finished.
  await expect.poll(() => refused.length).toBe(14);
  for (let done = false; !done;) {
    await new Promise((soon) => setTimeout(soon, 5));
    expect(waiting.length).toBeLessThanOrEqual(2);
    waiting.splice(0).forEach((finish) => finish());
    done = await Promise.race([ended.then(() => true), new Promise<boolean>((soon) => setTimeout(soon, 5, false))]);
  }
  const results = await ended;
  expect(results.filter((each) => each === 'made')).toHaveLength(26);
  expect(results.filter((each) => each === 'busy')).toHaveLength(14);
  expect(speech.state).toBe('working');
});

it('says that no synthesiser is there, and speaks once it was installed', async () => {
  let installed = false;
  const troubles: unknown[] = [];
  const real = counting();
  const missing = () => Promise.reject(new SpeechError('not-installed', 'espeak-ng is not installed'));
  const speech = speechOf({
    synthesiser: {
      version: () => (installed ? real.version() : missing()),
      render: (toSay) => (installed ? real.render(toSay) : missing()),
    },
    onTrouble: (error) => troubles.push(error),
  });
  await speech.probe();
  expect(speech.state).toBe('not-installed');
  await expect(speech.sound(say('one'))).rejects.toMatchObject({ code: 'not-installed' });
  expect(troubles).toHaveLength(1);
  installed = true;
  await speech.sound(say('one'));
  expect(speech.state).toBe('working');
});
