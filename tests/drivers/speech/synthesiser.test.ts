import { chmodSync, existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { LONGEST_TEXT, plainText, Synthesiser } from '#drivers/speech/synthesiser.ts';
import { formOf, wholeWave } from '#drivers/speech/wave.ts';

// The head of a WAVE file: "Multimedia Programming Interface and Data Specifications 1.0" (1991), RIFF chunks; from memory.

const synthesiser = new Synthesiser();
const say = (text: string, wordsPerMinute = 170) => synthesiser.render({ text, language: 'en', wordsPerMinute });

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'benchfold-say-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** A program in the synthesiser's place. */
function program(script: string): string {
  const path = join(folder, 'program');
  writeFileSync(path, `#!/bin/sh\n${script}\n`);
  chmodSync(path, 0o755);
  return path;
}

it('makes whole 16 bit mono sound whose head tells its true size', async () => {
  const sound = await say('Fifteen point nine ounces, too close to sixteen.');
  const { rate, seconds } = formOf(sound);
  expect(rate).toBe(22_050);
  expect(sound.readUInt32LE(4)).toBe(sound.length - 8);
  expect(sound.readUInt32LE(40)).toBe(sound.length - 44);
  // Eight words at 170 a minute, with the comma's pause: about three seconds.
  expect(seconds).toBeGreaterThan(2);
  expect(seconds).toBeLessThan(5);
});

it('speaks both languages, and as fast as it is asked', async () => {
  const text = 'quince coma nueve onzas, muy cerca de dieciséis';
  const [slow, fast] = await Promise.all(
    [120, 260].map((wordsPerMinute) => synthesiser.render({ text, language: 'es', wordsPerMinute })),
  );
  if (slow === undefined || fast === undefined) throw new Error('no sound');
  expect(formOf(slow).seconds).toBeGreaterThan(1.5 * formOf(fast).seconds);
  const english = await say(text);
  expect(english.equals(await synthesiser.render({ text, language: 'es', wordsPerMinute: 170 }))).toBe(false);
});

describe('hostile text', () => {
  it.each([
    ['a shell’s', () => `one; touch ${join(folder, 'made')} $(touch ${join(folder, 'made')}) \`touch x\` | tee > y`],
    ['options', () => `--version -w ${join(folder, 'made')} -f /etc/hostname`],
    ['phonemes and mark-up', () => `[[h@l@U]] <speak><audio src="${join(folder, 'made')}"/></speak>`],
    ['control characters', () => `one\u0000two\u001b]0;x\u0007\u2028three`],
  ])('of %s is only spoken', async (_, text) => {
    const plain = plainText(text());
    expect(plain).toMatch(/^[\p{L}\p{M}\p{N} .,;:!?¡¿'’"()%-]+$/u);
    expect(formOf(await say(text())).seconds).toBeGreaterThan(0.2);
    expect(existsSync(join(folder, 'made'))).toBe(false);
  });

  it.each([
    ['nothing', ''],
    ['only marks', '... [[]] <>'],
    ['too much', 'long '.repeat(LONGEST_TEXT)],
  ])('of %s is refused in words', async (_, text) => {
    await expect(say(text)).rejects.toMatchObject({ code: 'bad-text' });
  });
});

describe('a synthesiser that', () => {
  const ask = (script: string | null, timeoutMs = 300) =>
    new Synthesiser({
      program: script === null ? join(folder, 'nothing-here') : program(script),
      timeoutMs,
    }).render({ text: 'hello', language: 'en', wordsPerMinute: 170 });

  it('is missing is told as not installed', async () => {
    await expect(ask(null)).rejects.toMatchObject({ code: 'not-installed' });
  });
  it('hangs is ended', async () => {
    await expect(ask('sleep 30')).rejects.toMatchObject({ code: 'timed-out' });
  });
  it('fails is told', async () => {
    await expect(ask('exit 3')).rejects.toMatchObject({
      code: 'failed',
      message: expect.stringContaining('3') as string,
    });
  });
  it('never ends is ended', async () => {
    await expect(ask('exec cat /dev/zero', 20_000)).rejects.toMatchObject({ code: 'failed' });
  });
  it('gives no sound is told', async () => {
    await expect(ask('echo hello')).rejects.toMatchObject({ code: 'failed' });
  });
});

it('takes nothing but 16 bit mono sound', async () => {
  const sound = await say('one');
  const stereo = Buffer.from(sound);
  stereo.writeUInt16LE(2, 22);
  expect(() => wholeWave(stereo)).toThrow(/mono/);
  expect(() => wholeWave(sound.subarray(0, 44))).toThrow(/no sound/);
  expect(() => wholeWave(sound.subarray(0, 20))).toThrow(/WAVE/);
});
