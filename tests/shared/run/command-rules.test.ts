import { describe, expect, it } from 'vitest';
import {
  ASKS_FIRST,
  asksFirst,
  decideVoice,
  ruleOf,
  VOICE_SCORES,
  type HeardBefore,
} from '#shared/run/command-rules.ts';
import { COMMANDS, GIVEN_BY, type Command } from '#shared/run/commands.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunFacts, RunInput } from '#shared/run/types.ts';
import { after, command, FACTS, parcel, pieceScan, reading, taken } from '#tests/support/run-fixtures.ts';

const gatherAll = [taken([parcel(['A'])]), pieceScan('A')];
const toWeigh = [...gatherAll, ...Array.from({ length: 4 }, () => command('next'))];
const toClose: readonly RunInput[] = [...toWeigh, { type: 'reading', reading: reading('15.9') }];
const toLabel = [...toWeigh, { type: 'reading', reading: reading('14.5') } as const, command('next')];

describe('what cannot be taken back', () => {
  const UNDONE: readonly (readonly [Command, readonly RunInput[], string])[] = [
    ['set-aside', toClose, 'set-aside'],
    ['item-damaged', gatherAll, 'set-aside'],
    ['item-missing', [taken([parcel(['A'])])], 'set-aside'],
    ['go-without', [taken([parcel(['A', 'B'])])], 'go-without'],
    ['pay-next-bracket', toClose, 'pay-next-bracket'],
    ['print-again', toClose, 'print-again'],
    ['release', gatherAll, 'release'],
  ];

  it('is exactly what a shop may name', () => {
    expect([...ASKS_FIRST].sort()).toEqual(UNDONE.map(([each]) => each).sort());
  });

  it.each(UNDONE.flatMap((row) => (['touch', 'key', 'scan', 'voice'] as const).map((by) => [...row, by] as const)))(
    '%s asks first (%#)',
    (name, from, about, by) => {
      const state = after(from);
      const asked = transition(state, command(name, by), FACTS);
      expect(asked.effects).toEqual([]);
      expect(asked.state.confirming?.command).toBe(about);
      expect(asked.state.step).toEqual(state.step);
    },
  );

  it.each(UNDONE)(
    '%s needs no question where the shop says so and it is pressed, but still where it is said',
    (name, from) => {
      const state = after(from);
      const facts: RunFacts = { ...FACTS, unasked: [name] };
      for (const by of ['touch', 'key', 'scan'] as const) {
        const done = transition(state, command(name, by), facts);
        expect(done.accepted && done.state.confirming).toBe(null);
        expect([done.effects.length > 0, done.state.step.at !== state.step.at]).toContain(true);
      }
      expect(transition(state, command(name, 'voice'), facts).state.confirming).not.toBeNull();
    },
  );

  it('includes finishing without a scan, whatever the shop says and however it is given', () => {
    const state = after(toLabel);
    expect(state.step.at).toBe('label');
    for (const by of ['touch', 'key', 'scan', 'voice'] as const) {
      const { state: asked, effects } = transition(state, command('next', by), { ...FACTS, unasked: ASKS_FIRST });
      expect([asked.step.at, asked.confirming?.command, effects]).toEqual(['label', 'next', []]);
    }
  });

  it('is asked again by voice when the answer comes late, and done at once by a finger', () => {
    const asked = after([...toClose, command('set-aside', 'voice')]);
    const since = asked.confirming?.since ?? 0;
    const late = { ...FACTS, now: since + 31_000 };
    const again = transition(asked, command('confirm', 'voice'), late);
    expect(again.effects).toEqual([]);
    expect(again.state).toMatchObject({
      confirming: { command: 'set-aside', since: late.now },
      repeats: asked.repeats + 1,
    });
    const answered = transition(again.state, command('confirm', 'voice'), { ...late, now: late.now + 2000 });
    expect(answered.effects).toMatchObject([{ type: 'set-aside' }]);
    expect(transition(asked, command('confirm', 'touch'), late).effects).toMatchObject([{ type: 'set-aside' }]);
  });
});

describe('a phrase that was heard', () => {
  const before = (change: Partial<HeardBefore>): HeardBefore => ({
    command: 'next',
    at: 10_000,
    taken: true,
    ...change,
  });
  it.each<[string, Command, number, HeardBefore | null, number, string]>([
    ['surely', 'next', -50, null, 20_000, 'take'],
    ['exactly surely enough', 'next', VOICE_SCORES.usual, null, 20_000, 'take'],
    ['less surely', 'next', -70, null, 20_000, 'say-again'],
    ['less surely, a second time', 'next', -70, before({ taken: false, at: 16_000 }), 20_000, 'take'],
    ['less surely, long after', 'next', -70, before({ taken: false, at: 10_000 }), 20_000, 'say-again'],
    [
      'less surely, after another',
      'next',
      -70,
      before({ taken: false, at: 19_000, command: 'back' }),
      20_000,
      'say-again',
    ],
    ['less surely, after it was taken', 'next', -70, before({ at: 18_000 }), 20_000, 'say-again'],
    ['again at once', 'next', -40, before({ at: 19_500 }), 20_000, 'too-soon'],
    ['again in time', 'next', -40, before({ at: 19_000 }), 20_000, 'take'],
    ['after another at once', 'back', -40, before({ at: 19_900 }), 20_000, 'take'],
    ['surely enough for a step, not for an end', 'confirm', -66, null, 20_000, 'say-again'],
    ['surely enough for an end', 'confirm', -64, null, 20_000, 'take'],
    ['hardly, but harmless', 'cancel', -100, null, 20_000, 'take'],
  ])('%s: %s', (_, name, score, earlier, now, decision) => {
    expect(decideVoice(name, score, earlier, now)).toBe(decision);
  });

  it('is weighed harder where it cannot be taken back', () => {
    for (const name of COMMANDS) {
      const { undoable, voice } = ruleOf(name);
      expect(voice.sure).toBeGreaterThanOrEqual(VOICE_SCORES.least);
      if (!undoable) expect(voice.sure).toBe(VOICE_SCORES.careful);
      for (const by of GIVEN_BY)
        if (by === 'voice') expect(asksFirst(name, by, COMMANDS)).toBe(ASKS_FIRST.includes(name));
    }
  });
});

it('a phrase counts as heard again from the end of its stutter, and for six seconds', () => {
  const before = (taken: boolean) => ({ command: 'next', at: 10_000, taken }) as const;
  expect(decideVoice('next', -40, before(true), 10_699)).toBe('too-soon');
  expect(decideVoice('next', -40, before(true), 10_700)).toBe('take');
  expect(decideVoice('next', -70, before(false), 16_000)).toBe('take');
  expect(decideVoice('next', -70, before(false), 16_001)).toBe('say-again');
  expect(asksFirst('release', 'touch')).toBe(true);
});
