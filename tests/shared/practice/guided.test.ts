import { describe, expect, it } from 'vitest';
import type { PracticeInput } from '#shared/practice/practise.ts';
import { skillStanding } from '#shared/practice/standing.ts';
import type { Mark, PracticeScreen, PracticeState } from '#shared/practice/types.ts';
import { FACTS, parcel, plan } from '#tests/support/run-fixtures.ts';
import {
  PACKING,
  SUITS,
  say,
  choose,
  bin,
  piece,
  badge,
  invented,
  toSkill,
  toGuided,
  at,
  give,
} from '#tests/support/practice-moments.ts';

const PACKING_SCREEN: PracticeScreen = { at: 'skill', skill: 'packing', signing: null };

describe('a guided run', () => {
  const step = (state: PracticeState) => (state.screen.at === 'guided' ? state.screen.run.step.at : state.screen.at);
  const folds = Array.from({ length: 4 }, () => say('next'));
  const toFill = [...toGuided, ...folds];

  it('is an order in practice from its first piece, and nothing of the outside', () => {
    const { state, effects, accepted } = give([...toSkill, choose('guided')], invented);
    expect([effects, accepted]).toEqual([[], true]);
    expect(state).toMatchObject({
      notice: null,
      screen: {
        at: 'guided',
        skill: 'packing',
        run: { practice: true, run: 'practice', step: { at: 'gather' }, order: { id: '1047' } },
      },
    });
  });

  it('asks for another plan where the container is too tight, and goes on with it or without', () => {
    const tight = give(toFill, say('too-tight'));
    expect([step(at(toFill)), tight.effects]).toEqual([
      'fill',
      [{ type: 'replan', pieces: ['A'], without: ['pouch-a'] }],
    ]);
    const told = (each: PracticeInput) => {
      const { state } = give([...toFill, say('too-tight')], each);
      return state.screen.at === 'guided' ? state.screen.run.notice?.code : null;
    };
    expect(told({ type: 'replanned', plan: plan([parcel(['A'], 'pouch-b')]) })).toBe('next-plan');
    expect(told({ type: 'replanned', plan: null })).toBe('no-other-plan');
  });

  it('weighs what the plan expects less what is still to come, and prints at once', () => {
    const weighed = at([...toFill, say('next'), say('next')]);
    if (weighed.screen.at !== 'guided') throw new Error('no guided run');
    const { run } = weighed.screen;
    expect(run).toMatchObject({ step: { at: 'seal' }, slip: 'printed' });
    const planned = parcel(['A']);
    expect(run.progress[0]?.weighing?.reading).toMatchObject({
      unit: 'oz',
      places: 1,
      division: FACTS.weigh.division,
      stability: 'still',
      net: false,
      condition: 'ok',
    });
    // 15 oz are planned and 0.1 oz come on top of what is weighed.
    const { mass } = run.progress[0]!.weighing!.reading;
    expect(mass + planned.toCome.mass).toBe(run.progress[0]?.weighing?.verdict.total);
    expect(mass / FACTS.weigh.division).toBeCloseTo(149, 6);
  });

  it('calls for help as anywhere', () => {
    expect(give(toFill, say('help')).effects).toEqual([{ type: 'call-help' }]);
  });

  it('ends at its skill: finished and gone on, given back or set aside', () => {
    const toEnd = [...toFill, say('next'), say('next'), say('next'), say('next'), say('confirm')];
    expect(step(at(toEnd))).toBe('done');
    const ended: Partial<PracticeState> = { screen: PACKING_SCREEN, marked: null, notice: null };
    for (const [from, input] of [
      [toEnd, say('next')],
      [[...toFill, say('set-aside')], say('confirm')],
      [toGuided, say('back')],
    ] as const) {
      const { state, effects, accepted } = give(from, input);
      expect(state).toMatchObject(ended);
      expect([effects, accepted]).toEqual([[], true]);
    }
    expect(step(give(toEnd, say('repeat')).state)).toBe('done');
  });

  it('is marked once with the kinds of its pieces and with each mistake once', () => {
    const inputs = [
      ...toGuided,
      piece('Z'),
      piece('Y'),
      ...folds,
      bin('pouch-z'),
      say('next'),
      say('next'),
      say('next'),
      say('next'),
    ];
    const { effects } = give(inputs, say('confirm'));
    expect(effects).toEqual([
      {
        type: 'mark',
        person: 'lucia',
        mark: {
          skill: 'packing',
          exercise: 'guided',
          about: ['t-shirt'],
          answer: 'wrong-piece wrong-container',
          right: false,
        },
      },
    ]);
  });

  it('has its own answer for what is not possible in it, and takes no badge', () => {
    const { state, accepted } = give(toGuided, say('zero-scale'));
    expect([step(state), accepted]).toEqual(['gather', false]);
    expect(give(toGuided, badge('rosa')).state).toMatchObject({ person: 'lucia', notice: { code: 'not-here' } });
    expect(give(toGuided, choose('pouch-a')).state.notice?.code).toBe('not-here');
    expect(give(toGuided, { type: 'cannot-prepare' })).toMatchObject({ accepted: false, effects: [] });
  });
});

describe('what a skill still asks for', () => {
  const marks = (exercise: Mark['exercise'], count: number, skill = 'packing'): Mark[] =>
    Array.from({ length: count }, () => ({ skill, exercise, about: [], answer: '', right: true }));

  it('is each exercise with how many were right in a row, and of those it does not ask for nothing', () => {
    expect(skillStanding(PACKING, [...marks('choose', 2), ...marks('spot', 9, 'suits')])).toEqual({
      skill: PACKING,
      exercises: [
        { exercise: 'guided', inARow: 0, needed: 1 },
        { exercise: 'choose', inARow: 2, needed: 3 },
        { exercise: 'spot', inARow: 0, needed: 4 },
      ],
      ready: false,
    });
    expect(skillStanding(SUITS, marks('guided', 2, 'suits'))).toEqual({
      skill: SUITS,
      exercises: [{ exercise: 'guided', inARow: 2, needed: 2 }],
      ready: true,
    });
  });
});
