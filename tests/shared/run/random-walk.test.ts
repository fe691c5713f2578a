import fc from 'fast-check';
import { expect, it } from 'vitest';
import { commandsFor } from '#shared/run/commands-for.ts';
import { COMMANDS } from '#shared/run/commands.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';
import { benchViewFixture } from '#tests/support/view-fixture.ts';
import { toClose, toLabel, toMismatch, toSeal } from '#tests/support/run-moments.ts';
import { FACTS, labelScan, order, parcel, pieceScan, plan, reading, taken } from '#tests/support/run-fixtures.ts';

const anyInput: fc.Arbitrary<RunInput> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom(...COMMANDS).map((command): RunInput => ({ type: 'command', command, by: 'voice' })),
  },
  { weight: 6, arbitrary: fc.constant<RunInput>({ type: 'command', command: 'next', by: 'voice' }) },
  { weight: 4, arbitrary: fc.constantFrom('A', 'B', 'Z').map(pieceScan) },
  {
    weight: 4,
    arbitrary: fc
      .constantFrom('0', '9', '14.5', '15.9', '16.5', '40')
      .map((text): RunInput => ({ type: 'reading', reading: reading(text) })),
  },
  {
    weight: 2,
    arbitrary: fc
      .constantFrom('N1', 'N2')
      .chain((n) => fc.constantFrom('55802', '00501', null).map((p) => labelScan(n, p))),
  },
  {
    weight: 3,
    arbitrary: fc
      .constantFrom('5', '58', '55802', '00501', '1'.repeat(20))
      .map((digits): RunInput => ({ type: 'digits', digits, by: 'voice' })),
  },
  { weight: 2, arbitrary: fc.constant(taken([parcel(['A']), parcel(['B'])])) },
  {
    weight: 1,
    arbitrary: fc.constant<RunInput>({ type: 'replanned', plan: plan([parcel(['A'], 'pouch-b', 'compact')]) }),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom<RunInput>(
      {
        type: 'shortened',
        order: order([{ sku: 'A', count: 1 }]),
        plan: plan([parcel(['A'])]),
        sku: 'B',
        follows: '1047-2',
      },
      { type: 'not-shortened', order: '1047', why: 'nothing-fits' },
      { type: 'not-shortened', order: '1047' },
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom<RunInput>({ type: 'no-other-plan' }, { type: 'print-result', outcome: 'unknown' }),
  },
);

function walk(
  inputs: readonly RunInput[],
  look: (before: RunState, input: RunInput, after: ReturnType<typeof transition>) => void,
): void {
  let state = IDLE;
  inputs.forEach((input, index) => {
    const result = transition(state, input, { ...FACTS, now: FACTS.now + index * 1000 });
    look(state, input, result);
    ({ state } = result);
  });
}

it('never finishes a parcel that was not weighed and labelled, whatever comes in', () => {
  fc.assert(
    fc.property(fc.array(anyInput, { maxLength: 80 }), (inputs) => {
      walk(inputs, (_before, _input, { state, effects }) => {
        for (const effect of effects) {
          if (effect.type !== 'parcel-done') continue;
          const done = state.progress[effect.parcel];
          expect(done?.weighing).not.toBeNull();
          expect(done?.weighing?.verdict.verdict === 'clear' || done?.weighing?.decided === 'pay-next-bracket').toBe(
            true,
          );
          expect(done?.label).not.toBeNull();
        }
      });
    }),
    { numRuns: 400 },
  );
});

it('prints the slip of a parcel that is weighed, and of no other', () => {
  fc.assert(
    fc.property(fc.constantFrom(toClose, toMismatch, toSeal, toLabel), fc.array(anyInput), (first, then) => {
      walk([...first, ...then], (_before, _input, { state, effects }) => {
        const offered = commandsFor(state).includes('print-again');
        const printed = effects.filter(({ type }) => type === 'print-slip');
        if (offered || printed.length > 0) expect(state.progress[state.parcel]?.weighing).toBeTruthy();
        for (const effect of printed) expect(effect).toMatchObject({ parcel: state.parcel });
      });
    }),
    { numRuns: 400 },
  );
});

it('survives being written down and read again at any moment', () => {
  fc.assert(
    fc.property(fc.array(anyInput, { maxLength: 40 }), (inputs) => {
      walk(inputs, (before, input, { state }) => {
        const revived = JSON.parse(JSON.stringify(before)) as RunState;
        const index = inputs.indexOf(input);
        const facts = { ...FACTS, now: FACTS.now + index * 1000 };
        expect(transition(revived, input, facts).state).toEqual(transition(before, input, facts).state);
        expect(JSON.parse(JSON.stringify(state))).toEqual(state);
      });
    }),
    { numRuns: 100 },
  );
});

it('always has a view, and the view offers just the possible commands', () => {
  fc.assert(
    fc.property(fc.array(anyInput, { maxLength: 40 }), (inputs) => {
      walk(inputs, (_before, _input, { state }) => {
        const view = benchViewFixture(state);
        expect(view.commands).toEqual(commandsFor(state));
        expect(view.task.at).toBe(state.step.at);
        expect(view.seam.at).toBeLessThanOrEqual(view.seam.stitches.length);
      });
    }),
    { numRuns: 100 },
  );
});
