import { describe, expect, it } from 'vitest';
import { commandsFor } from '#shared/run/commands-for.ts';
import { COMMANDS, type Command } from '#shared/run/commands.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput } from '#shared/run/types.ts';
import { after, command, FACTS, labelScan, parcel, pieceScan, taken } from '#tests/support/run-fixtures.ts';
import {
  ONE,
  gatherAll,
  toFold,
  toFill,
  toWeigh,
  weighed,
  toSeal,
  toClose,
  toOver,
  toMismatch,
  toLabel,
  toStop,
  toDone,
  FAR_LATER,
} from '#tests/support/run-moments.ts';

const PLACES: readonly (readonly [string, readonly RunInput[]])[] = [
  ['idle', []],
  ['gather', [ONE]],
  ['look-over', gatherAll],
  ['fold', toFold],
  ['fill', toFill],
  ['weigh', toWeigh],
  ['decide close', toClose],
  ['decide over', toOver],
  ['decide mismatch', toMismatch],
  ['seal', toSeal],
  ['label', toLabel],
  ['label stop', toStop],
  ['done', toDone],
];

describe('what must not happen', () => {
  it.each(PLACES)(
    '%s: a command that is not offered moves nothing and asks nothing of the outside',
    (_name, inputs) => {
      const state = after(inputs);
      const offered = new Set<Command>(commandsFor(state));
      for (const each of COMMANDS.filter((name) => !offered.has(name))) {
        const result = transition(state, command(each), FAR_LATER);
        expect(result.accepted, each).toBe(false);
        expect(result.state.step, each).toEqual(state.step);
        expect(result.effects, each).toEqual([]);
      }
    },
  );

  it.each(PLACES)('%s: every offered command is taken', (_name, inputs) => {
    const state = after(inputs);
    for (const each of commandsFor(state))
      expect(transition(state, command(each), FAR_LATER).accepted, each).toBe(true);
  });

  it.each(PLACES)('%s: a label number used before never finishes a parcel', (_name, inputs) => {
    const result = transition(after(inputs), labelScan('9200111122223333444455', '55802'), {
      ...FAR_LATER,
      labelUsedBefore: true,
    });
    expect(result.effects).toEqual([]);
  });

  it('a number that is on another parcel stops, and no command but putting it away or setting aside ends the stop', () => {
    const used = transition(after(toLabel), labelScan('N1', '55802'), { ...FAR_LATER, labelUsedBefore: true }).state;
    expect(used.step).toEqual({ at: 'label', stop: { why: 'used', number: 'N1' } });
    expect(used.notice).toMatchObject({ code: 'label-used-before', tone: 'stop' });
    expect(commandsFor(used)[0]).toBe('repeat');
    for (const each of COMMANDS.filter((name) => name !== 'back' && name !== 'set-aside')) {
      const result = transition(used, command(each), FAR_LATER);
      expect(result.state.step, each).toEqual(used.step);
      expect(result.effects.filter(({ type }) => type === 'parcel-done')).toEqual([]);
    }
    expect(transition(used, labelScan('N2', '55802'), FAR_LATER).state.step.at).toBe('done');
  });

  it('a switch that bounces does not confirm what it has just asked', () => {
    const asked = transition(after(toLabel), command('next', 'key'), FAR_LATER).state;
    const bounce = transition(asked, command('confirm', 'key'), { ...FAR_LATER, now: FAR_LATER.now + 120 });
    expect(bounce.state.step.at).toBe('label');
    const meant = transition(bounce.state, command('confirm', 'key'), { ...FAR_LATER, now: FAR_LATER.now + 900 });
    expect(meant.state.step.at).toBe('done');
  });

  it('two of one piece are due twice and no third time', () => {
    const two = after([taken([parcel(['A', 'A'])]), pieceScan('A')]);
    expect(two.step.at).toBe('gather');
    const both = transition(two, pieceScan('A'), FACTS).state;
    expect(both.step.at).toBe('look-over');
    expect(transition(both, pieceScan('A'), FACTS).state.gathered.A).toBe(2);
  });

  it('a second parcel may not carry the number of the first', () => {
    const packOne: RunInput[] = [command('next'), command('next'), command('next'), weighed('14.5'), command('next')];
    const second = after([
      taken([parcel(['A']), parcel(['B'])]),
      pieceScan('A'),
      pieceScan('B'),
      command('next'),
      command('next'),
      ...packOne,
      labelScan('N1', '55802'),
      ...packOne,
    ]);
    expect(second.parcel).toBe(1);
    expect(second.step.at).toBe('label');
    const again = transition(second, labelScan('N1', '55802'), FACTS);
    expect(again.state.notice?.code).toBe('label-used-before');
    expect(transition(second, labelScan('N2', '55802'), FACTS).state.step.at).toBe('done');
  });
});
