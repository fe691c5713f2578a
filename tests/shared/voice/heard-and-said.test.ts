import { describe, expect, it } from 'vitest';
import { COMMANDS } from '#shared/run/commands.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { deviceCue, zeroCue } from '#shared/voice/device-cue.ts';
import { decimalWords, digitWords, numberWords } from '#shared/voice/number-words.ts';
import { ALTERNATIVES, commandOf, PHRASES } from '#shared/voice/phrases.ts';
import { counted, massNumber, massWords } from '#shared/voice/quantity-words.ts';
import { speakable, spokenCode } from '#shared/voice/speakable.ts';
import type { DeviceHealth, LiveScale } from '#shared/wire/views.ts';

describe('a phrase', () => {
  it('is that of its command, exactly, and its second one in English alone', () => {
    for (const command of COMMANDS) {
      expect(commandOf(PHRASES.en[command], 'en')).toBe(command);
      expect(commandOf(PHRASES.es[command], 'es')).toBe(command);
    }
    for (const [command, phrase] of Object.entries(ALTERNATIVES)) {
      expect(commandOf(phrase, 'en')).toBe(command);
      expect(commandOf(phrase, 'es')).toBeNull();
    }
    for (const talk of ['', 'next', `${PHRASES.en.next} please`]) expect(commandOf(talk, 'en')).toBeNull();
  });
});

describe('numbers', () => {
  it.each([
    ['7', 'seven'],
    ['0', 'zero'],
    ['0.5', 'zero point five'],
    ['-0.25', 'minus zero point two five'],
    ['999999', 'nine hundred ninety-nine thousand nine hundred ninety-nine'],
    ['1000', 'one thousand'],
    ['1000000', 'one zero zero zero zero zero zero'],
    ['007', 'zero zero seven'],
  ])('%s is said %s', (text, words) => {
    expect(decimalWords(text, 'en')).toBe(words);
  });

  it.each(['', '1.', '.5', '1,5', '1.5.2', 'x1', '1x'])('%j is no number', (text) => {
    expect(() => decimalWords(text, 'en')).toThrow(
      `number words: expected a decimal number such as 15.9, found "${text}"`,
    );
  });

  it.each([-1, 1.5, 1_000_000, Number.NaN])('%d is not counted', (value) => {
    expect(() => numberWords(value, 'en')).toThrow(
      `number words: expected a whole number from 0 to 999999, found ${String(value)}`,
    );
  });

  it.each([
    ['K4-B', 'K four, B'],
    ['-K4--B-', 'K four, B'],
    ['a  1', 'A, one'],
    ['--', ''],
  ])('the code %j is said %j', (text, words) => {
    expect(digitWords(text, 'en')).toBe(words);
  });

  it('a code is said no longer than eighty signs of it', () => {
    expect(spokenCode('7'.repeat(100), 'en').split(' ')).toHaveLength(80);
  });

  it('one is one, and minus one ounce too', () => {
    expect([counted(1, 'en', 'piece', 'pieces'), counted(0, 'en', 'piece', 'pieces')]).toEqual([
      'one piece',
      'zero pieces',
    ]);
    const grams = (value: number) => massFromGrams(value);
    expect(massWords(grams(1), 'g', 1, 'en')).toBe('one gram');
    expect(massWords(grams(-1), 'g', 1, 'en')).toBe('minus one gram');
    expect(massWords(grams(10), 'g', 0, 'en')).toBe('ten grams');
    expect(massWords(grams(1.5), 'g', 1, 'en')).toBe('one point five grams');
    expect(massNumber(grams(100), 'g', 0, 'en')).toBe('one hundred');
    expect(massNumber(grams(100), 'g', 2, 'en')).toBe('one hundred');
  });
});

describe('a title as it is said', () => {
  it.each([
    ['Box 10x13', 'Box ten by thirteen'],
    ['Box 10 × 13', 'Box ten by thirteen'],
    ['12½x9', 'twelve and a half by nine'],
    ['½ x 3', 'a half by three'],
    ['3½ in', 'three and a half in'],
    ['¾ sleeve', 'three quarters sleeve'],
    ['x3 fax 2', 'x three fax two'],
    ['1.25 kg', 'one point two five kg'],
    ['1.5.2', 'one point five. two'],
    ['Men’s ‘old’ shirt', "Men's 'old' shirt"],
    ['50% wool & silk', 'fifty percent wool and silk'],
    ['a_b#c', 'a b c'],
  ])('%j is said %j', (text, said) => {
    expect(speakable(text, 'en')).toBe(said);
  });

  it('of more than eighty signs is cut at a word, or in a word that never ends', () => {
    expect(speakable('a'.repeat(80), 'en')).toBe('a'.repeat(80));
    expect(speakable(`${'word '.repeat(15)}${'b'.repeat(20)}`, 'en')).toBe('word '.repeat(15).trim());
    expect(speakable(`${'b'.repeat(30)} ${'c'.repeat(90)}`, 'en')).toBe(`${'b'.repeat(30)} ${'c'.repeat(9)}`);
  });
});

describe('what is said of devices', () => {
  const of = (device: DeviceHealth['device'], state: DeviceHealth['state'], trouble: DeviceHealth['trouble']) =>
    ({ device, state, trouble }) as DeviceHealth;
  const scale = of('scale', 'working', 'none');
  const printer = of('printer', 'working', 'none');

  it('is the first new trouble, once, and that it is over', () => {
    const lost = of('scale', 'lost', 'link-lost');
    const paper = of('printer', 'attention', 'paper-near-end');
    expect(deviceCue([printer, scale], [printer, lost], 'en')).toMatchObject({
      key: 'device scale link-lost',
      urgency: 'urgent',
    });
    expect(deviceCue([scale, printer], [scale, paper], 'en')).toMatchObject({
      key: 'device printer paper-near-end',
      urgency: 'normal',
    });
    expect(deviceCue([lost, printer], [lost, printer], 'en')).toBeNull();
    expect(deviceCue([lost, printer], [lost, paper], 'en')?.key).toBe('device printer paper-near-end');
    // the same trouble in another state, and another trouble in the same state, are news
    expect(deviceCue([of('scale', 'faulty', 'link-lost')], [lost], 'en')?.key).toBe('device scale link-lost');
    expect(deviceCue([lost], [of('scale', 'lost', 'no-frames')], 'en')?.key).toBe('device scale no-frames');
    expect(deviceCue([lost], [scale], 'en')).toMatchObject({ key: 'device scale back', urgency: 'normal' });
  });

  it('is nothing of a device that sits still, has no trouble, or was well before', () => {
    const idle = of('scale', 'silent', 'none');
    expect(deviceCue([scale], [idle], 'en')).toBeNull();
    expect(deviceCue([idle], [scale], 'en')).toBeNull();
    expect(deviceCue([scale], [of('scale', 'lost', 'none')], 'en')).toBeNull();
    expect(deviceCue([scale], [of('scale', 'silent', 'no-frames')], 'en')).toBeNull();
    expect(deviceCue([of('scale', 'lost', 'no-frames')], [idle], 'en')).toBeNull();
  });

  it('is once that the empty pan shows something, until it shows zero again', () => {
    const units = { mass: 'g', massPlaces: 1, length: 'cm' } as never;
    const pan = (grams: number | null) => ({ needsZeroing: grams === null ? null : massFromGrams(grams) }) as LiveScale;
    expect(zeroCue(null, pan(2.5), units, 'en')).toMatchObject({ key: 'zero', urgency: 'normal' });
    expect(zeroCue(pan(null), pan(2.5), units, 'en')?.full).toContain('two point five grams');
    expect(zeroCue({} as LiveScale, pan(2.5), units, 'en')).not.toBeNull();
    expect(zeroCue(pan(2), pan(2.5), units, 'en')).toBeNull();
    expect(zeroCue(pan(2), pan(null), units, 'en')).toBeNull();
    expect(zeroCue(null, {} as LiveScale, units, 'en')).toBeNull();
  });
});
