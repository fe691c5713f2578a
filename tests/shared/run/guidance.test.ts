import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Guidance } from '#shared/guidance/stops.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput, RunState, Step } from '#shared/run/types.ts';
import { benchViewFixture } from '#tests/support/view-fixture.ts';
import { after, command, FACTS, labelScan, parcel, pieceScan, reading, taken } from '#tests/support/run-fixtures.ts';

const told = (level: 'full' | 'brief' | 'quiet', usual: string | null = 'flat'): Guidance => ({
  't-shirt': { level, usual },
});
const begin = (guidance: Guidance): RunInput => ({
  ...(taken([parcel(['A', 'B'])]) as Extract<RunInput, { type: 'order-taken' }>),
  guidance,
});

/** The places where the bench stops from the first fold until the scale, pressing "next". */
function stops(guidance: Guidance): readonly Step[] {
  const state = after([begin(guidance), pieceScan('A'), pieceScan('B'), command('next')]);
  const seen: Step[] = [];
  let here = transition(state, command('next'), FACTS).state;
  while (here.step.at === 'fold' || here.step.at === 'fill') {
    seen.push(here.step);
    here = transition(here, command('next'), FACTS).state;
  }
  expect(here.step.at).toBe('weigh');
  return seen;
}

const fold = (piece: number, step: number): Step => ({ at: 'fold', piece, step });
const FILL: Step = { at: 'fill' };

describe('where the bench stops', () => {
  it.each<[string, Guidance, readonly Step[]]>([
    ['full: every step', told('full'), [fold(0, 0), fold(0, 1), fold(1, 0), fold(1, 1), FILL]],
    ['nobody known: every step', {}, [fold(0, 0), fold(0, 1), fold(1, 0), fold(1, 1), FILL]],
    ['brief: the key step', told('brief'), [fold(0, 1), fold(1, 1), FILL]],
    ['quiet and as usual: nowhere', told('quiet'), [FILL]],
    ['quiet, folded otherwise than usual', told('quiet', 'other'), [fold(0, 1), fold(1, 1), FILL]],
  ])('%s', (_, guidance, expected) => {
    expect(stops(guidance)).toEqual(expected);
  });

  it('says at the filling what was folded as usual without a word, and that a fold differs from it', () => {
    const quiet = after([begin(told('quiet')), pieceScan('A'), pieceScan('B'), command('next'), command('next')]);
    const { task, seam } = benchViewFixture(quiet);
    expect(task.at === 'fill' && task.asUsual.map((each) => each.piece)).toEqual(['piece A', 'piece B']);
    expect(seam.stitches.filter(({ step }) => step === 'fold')).toEqual([]);
    const other = after([
      begin(told('quiet', 'other')),
      pieceScan('A'),
      pieceScan('B'),
      command('next'),
      command('next'),
    ]);
    expect(benchViewFixture(other).task).toMatchObject({ at: 'fold', told: 'key' });
  });
});

describe('set by hand', () => {
  const atFold = [begin(told('brief')), pieceScan('A'), pieceScan('B'), command('next'), command('next')];

  it('more of what is at hand begins at its first step, less goes on to what differs', () => {
    const more = after([...atFold, command('tell-more')]);
    expect(more.step).toEqual(fold(0, 0));
    expect(more.guidance['t-shirt']?.level).toBe('full');
    expect(after([...atFold, command('tell-less')]).step).toEqual(FILL);
    expect(after([...atFold, command('tell-less'), command('tell-more')]).step).toEqual(fold(0, 1));
    expect(after([...atFold, command('tell-less'), command('back')]).step.at).toBe('look-over');
  });

  it('is remembered of who is signed on, and of nobody else', () => {
    const by = (state: RunState) => transition(state, command('tell-more'), FACTS).effects;
    expect(by(after(atFold))).toEqual([]);
    expect(by({ ...after(atFold), packer: 'lucia' })).toEqual([
      { type: 'keep-guidance', packer: 'lucia', levels: { 't-shirt': 'full' } },
    ]);
  });

  it('is offered only where there is more, or less, to tell', () => {
    const offered = (guidance: Guidance) =>
      commandsFor(after([begin(guidance), pieceScan('A'), pieceScan('B')])).filter((each) => each.startsWith('tell'));
    expect(offered(told('full'))).toEqual(['tell-less']);
    expect(offered(told('brief'))).toEqual(['tell-more', 'tell-less']);
    expect(offered(told('quiet'))).toEqual(['tell-more']);
    expect(commandsFor(IDLE)).not.toContain('tell-more');
  });

  it('a badge in the middle of an order asks how its holder is guided, and the step follows', () => {
    const badge: RunInput = { type: 'scan', by: 'scan', meaning: { means: 'staff', text: 'b', staff: 'lucia' } };
    const state = after(atFold);
    const { state: signedOn, effects } = transition(state, badge, FACTS);
    expect(effects).toEqual([{ type: 'read-guidance', packer: 'lucia', garments: ['t-shirt'] }]);
    expect(after([{ type: 'guidance', guidance: told('quiet') }], signedOn).step).toEqual(FILL);
    expect(after([{ type: 'guidance', guidance: told('full') }], signedOn).step).toEqual(fold(0, 0));
  });
});

describe('mistakes', () => {
  const mistakes = (...inputs: readonly RunInput[]) =>
    after([begin(told('quiet')), ...inputs]).mistakes.map((each) => each.mistake);
  const container = (id: string): RunInput => ({
    type: 'scan',
    by: 'scan',
    meaning: { means: 'container', text: id, container: id },
  });
  const weigh = (text: string): RunInput => ({ type: 'reading', reading: reading(text) });
  const toFill = [pieceScan('A'), pieceScan('B'), command('next'), command('next')];
  const toWeigh = [...toFill, command('next')];
  const toLabel = [...toWeigh, weigh('14.5'), command('next')];

  it.each<[string, readonly RunInput[], readonly string[]]>([
    ['a clean run', [...toLabel, labelScan('9200111122223333444455', '55802')], []],
    ['a piece of another order', [pieceScan('Z')], ['wrong-piece']],
    ['the same piece twice is none', [pieceScan('A'), pieceScan('A')], []],
    ['another bin', [...toFill, container('pouch-z')], ['wrong-container']],
    ['a label for another postcode', [...toLabel, labelScan('9200111122223333444455', '00501')], ['wrong-label']],
    [
      'the stop at a wrong label told again is none',
      [...toLabel, labelScan('9200111122223333444455', '00501'), command('next'), command('next')],
      ['wrong-label'],
    ],
    [
      'weighed wrong, then as it should',
      [...toWeigh, weigh('9'), command('weigh-again'), weigh('14.5')],
      ['wrong-contents'],
    ],
    ['weighed close, then clear', [...toWeigh, weigh('15.9'), command('weigh-again'), weigh('14.5')], []],
    ['weighed wrong and kept as it was', [...toWeigh, weigh('9'), command('next'), command('confirm')], []],
    ['a sure container that does not close', [...toFill, command('too-tight')], ['did-not-close']],
    [
      'a half-read code is none',
      [{ type: 'scan', by: 'scan', meaning: { means: 'unknown', text: '?', why: 'half-read' } }],
      [],
    ],
  ])('%s', (_, inputs, expected) => {
    expect(mistakes(...inputs)).toEqual(expected);
  });

  it('bring the guidance back at once', () => {
    const state = after([begin(told('quiet')), pieceScan('Z'), ...toFill]);
    expect(state.guidance['t-shirt']?.level).toBe('brief');
    expect(state.step).toEqual(fold(0, 1));
  });
});

it('whatever the guidance and whenever it changes, "next" alone leads from the folds to the scale, and back leads out', () => {
  const anyGuidance = fc.record({
    level: fc.constantFrom('full', 'brief', 'quiet'),
    usual: fc.constantFrom('flat', 'other', null),
  });
  const move = fc.constantFrom<RunInput[]>(
    [command('tell-more')],
    [command('tell-less')],
    [command('next')],
    [command('back')],
  );
  fc.assert(
    fc.property(anyGuidance, fc.array(move, { maxLength: 12 }), (guidance, moves) => {
      const start = [begin({ 't-shirt': guidance }), pieceScan('A'), pieceScan('B'), command('next'), command('next')];
      let state = after(start);
      // Out of the gathering the order would be given back.
      for (const [input] of moves) {
        if (state.step.at !== 'gather' && input !== undefined) ({ state } = transition(state, input, FACTS));
      }
      for (let guard = 0; state.step.at !== 'weigh'; guard++) {
        expect(guard).toBeLessThan(20);
        ({ state } = transition(state, command('next'), FACTS));
      }
      for (let guard = 0; state.step.at !== 'gather'; guard++) {
        expect(guard).toBeLessThan(20);
        ({ state } = transition(state, command('back'), FACTS));
      }
    }),
    { numRuns: 200 },
  );
});
