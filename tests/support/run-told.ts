import { describe, expect, it } from 'vitest';
import type { Command } from '#shared/run/commands.ts';
import { transition } from '#shared/run/transition.ts';
import type { Lies, Notice, NoticeCode, RunEffect, RunFacts, RunInput } from '#shared/run/types.ts';
import { after, command, FACTS, parcel, taken } from '#tests/support/run-fixtures.ts';

export type Says = readonly [Notice['tone'], NoticeCode, Notice['values']?] | null;

/** What an input makes a moment say, and what it asks of the outside, both whole. */
export type Told = readonly [
  name: string,
  from: readonly RunInput[],
  input: RunInput,
  says: Says,
  does?: readonly RunEffect[],
  facts?: Partial<RunFacts>,
];

export const scan = (meaning: Extract<RunInput, { type: 'scan' }>['meaning']): RunInput => ({
  type: 'scan',
  by: 'scan',
  meaning,
});
export const badge = (staff: string): RunInput => scan({ means: 'staff', text: 'b', staff });
export const confirmed = (name: Command): readonly RunInput[] => [command(name), command('confirm')];
export const lying = (lies: Lies): RunInput => ({
  ...(taken([parcel(['A', 'B'])]) as Extract<RunInput, { type: 'order-taken' }>),
  lies,
});

export const notNow = (name: string, more: Notice['values'] = {}): Says => [
  'attention',
  'not-now',
  { command: name, ...more },
];
export const aside = (reason: string): Says => ['well', 'set-aside-done', { order: '1047', reason }];
/** Of the piece that is scanned first. */
export const FOUND = { title: 'piece A', count: '1', due: '1' };

function noticeOf(says: Says): Notice | null {
  return says === null ? null : { tone: says[0], code: says[1], values: says[2] ?? {} };
}

/** Long after the moment was reached, so that nothing bounces. */
export function toldAs(name: string, rows: readonly Told[]): void {
  describe(name, () => {
    for (const [each, from, input, says, does = [], facts = {}] of rows) {
      it(each, () => {
        const { state, effects } = transition(after(from), input, { ...FACTS, now: FACTS.now + 1_000_000, ...facts });
        expect(state.notice).toEqual(noticeOf(says));
        expect(effects).toEqual(does);
      });
    }
  });
}
