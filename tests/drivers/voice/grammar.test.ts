import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { DECOYS } from '#drivers/voice/decoys.ts';
import { grammarText, loopGrammarText, nearText } from '#drivers/voice/grammar.ts';
import { COMMANDS } from '#shared/run/commands.ts';
import { ALTERNATIVES, commandOf, PHRASES, WAKE_PHRASE } from '#shared/voice/phrases.ts';
import { LANGUAGES } from '#shared/words/language.ts';

it('writes the phrases and the decoys as a finite state grammar', () => {
  expect(grammarText('search', ['next item', 'confirm'], ['a', 'bad'])).toBe(
    `FSG_BEGIN search
NUM_STATES 4
START_STATE 0
FINAL_STATE 1
TRANSITION 0 3 0.25 next
TRANSITION 3 1 1.0 item
TRANSITION 0 1 0.25 confirm
TRANSITION 0 2 0.25 a
TRANSITION 2 2 0.45 a
TRANSITION 0 2 0.25 bad
TRANSITION 2 2 0.45 bad
TRANSITION 2 1 0.1
FSG_END
`,
  );
});

it('writes a row of any of some words', () => {
  expect(loopGrammarText('digits', ['oh', 'one'])).toBe(
    `FSG_BEGIN digits
NUM_STATES 3
START_STATE 0
FINAL_STATE 1
TRANSITION 0 2 0.5 oh
TRANSITION 2 2 0.45 oh
TRANSITION 0 2 0.5 one
TRANSITION 2 2 0.45 one
TRANSITION 2 1 0.1
FSG_END
`,
  );
});

it('leaves every state with probabilities that sum to one', () => {
  const leaving = new Map<string, number>();
  for (const line of grammarText('all', Object.values(PHRASES.en)).split('\n')) {
    const [kind, from = '', , share] = line.split(' ');
    if (kind === 'TRANSITION') leaving.set(from, (leaving.get(from) ?? 0) + Number(share));
  }
  expect(leaving.size).toBeGreaterThan(10);
  for (const sum of leaving.values()) expect(sum).toBeCloseTo(1, 3);
});

it('has about three hundred decoys, each once', () => {
  expect(DECOYS.length).toBeGreaterThan(280);
  expect(new Set(DECOYS).size).toBe(DECOYS.length);
});

it.each(LANGUAGES)('has a phrase for every command in %s, no two alike, and none inside another', (language) => {
  const phrases = Object.values(PHRASES[language]);
  expect(phrases).toHaveLength(COMMANDS.length);
  expect(new Set(phrases).size).toBe(COMMANDS.length);
  for (const command of COMMANDS) expect(commandOf(PHRASES[language][command], language)).toBe(command);
  for (const a of phrases) for (const b of phrases) if (a !== b) expect(` ${a} `.includes(` ${b} `)).toBe(false);
});

it('takes nothing but the exact phrase for a command', () => {
  expect(commandOf('next', 'en')).toBeNull();
  expect(commandOf('the next item', 'en')).toBeNull();
  expect(commandOf('siguiente', 'en')).toBeNull();
});

it('sets a phrase against one more word before or behind it, and another first or last word', () => {
  const text = nearText('search', 'next item', ['a', 'next']);
  const arcs = text.split('\n').filter((line) => line.startsWith('TRANSITION'));
  /** every way from the first state to the last, as words */
  const ways = (state: string): readonly string[] =>
    state === '1'
      ? ['']
      : arcs.flatMap((line) => {
          const [, from, to = '', , word = ''] = line.split(' ');
          return from === state ? ways(to).map((rest) => `${word} ${rest}`.trim()) : [];
        });
  expect([...ways('0')].sort()).toEqual(
    [
      'next item',
      'a next item',
      'next next item',
      'next item a',
      'next item next',
      'a item',
      'next a',
      'next next',
    ].sort(),
  );
});

it('has a second phrase for every command, like no other', () => {
  const all = [...Object.values(PHRASES.en), ...Object.values(ALTERNATIVES)];
  expect(new Set(all).size).toBe(2 * COMMANDS.length);
  for (const command of COMMANDS) expect(commandOf(ALTERNATIVES[command], 'en')).toBe(command);
  for (const a of all) for (const b of all) if (a !== b) expect(` ${a} `.includes(` ${b} `)).toBe(false);
});

it('has only words that the recogniser’s dictionary knows', () => {
  const dictionary = readFileSync('/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict', 'utf8');
  const known = new Set(dictionary.split('\n').map((line) => line.split(' ')[0]));
  const words = [...Object.values(PHRASES.en), ...Object.values(ALTERNATIVES), WAKE_PHRASE].flatMap((each) =>
    each.split(' '),
  );
  expect([...words, ...DECOYS].filter((word) => !known.has(word))).toEqual([]);
});
