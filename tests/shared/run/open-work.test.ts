import { describe, expect, test } from 'vitest';
import type { ScanMeaning } from '#shared/codes/types.ts';
import { IDLE } from '#shared/run/initial.ts';
import { openWorkKnows } from '#shared/run/open-work.ts';
import type { RunInput, RunState, Step } from '#shared/run/types.ts';
import { after, parcel, taken } from '#tests/support/run-fixtures.ts';
import { toDone, toWeigh } from '#tests/support/run-moments.ts';

const packing: RunState = after([taken([parcel(['A', 'B'])])]);
const at = (step: Step): RunState => ({ ...packing, step });
const piece = (sku: string): ScanMeaning => ({ means: 'piece', text: sku, sku });
const orderOf = (order: string): ScanMeaning => ({ means: 'order', text: order, order });
const label: ScanMeaning = { means: 'label', text: 'x', number: '9212391234567812345670', postcode: null };
const unknown = (why: 'not-known' | 'half-read' | 'bad-check-digit'): ScanMeaning => ({
  means: 'unknown',
  text: 'x',
  why,
});

test.each<[string, ScanMeaning, RunState, boolean, boolean]>([
  ['a piece of this order', piece('A'), packing, false, true],
  ['a piece that another open order waits for: the packer must be told', piece('Z'), packing, true, true],
  ['a piece that nobody ordered', piece('Z'), packing, false, false],
  ['a piece of an open order at an idle bench', piece('A'), IDLE, true, true],
  ['a piece at an idle bench that nobody ordered', piece('A'), IDLE, false, false],
  ['this order', orderOf(packing.order?.id ?? ''), packing, false, true],
  ['an order that is still to be packed', orderOf('7'), IDLE, true, true],
  ['an order that is packed', orderOf('7'), IDLE, false, false],
  ['a long number where a label is asked for', label, at({ at: 'label' }), false, true],
  ['a long number while sealing', label, at({ at: 'seal' }), false, true],
  ['a long number anywhere else: an old label in sight', label, packing, false, false],
  ['a long number at an idle bench', label, IDLE, false, false],
  ['a command card', { means: 'command', text: 'c', command: 'next' }, IDLE, false, true],
  ['a badge', { means: 'staff', text: 'b', staff: 'rosa' }, IDLE, false, true],
  ['a container bin', { means: 'container', text: 'c', container: 'pouch-a' }, packing, false, true],
  ['a code that the shop does not know', unknown('not-known'), packing, true, false],
  ['a half-read code', unknown('half-read'), packing, true, false],
  ['a wrong check digit', unknown('bad-check-digit'), packing, true, false],
])('%s', (_, meaning, state, waits, known) => {
  expect(openWorkKnows(meaning, state, { waits })).toBe(known);
});

describe('between two orders and within one', () => {
  test.each<[string, readonly RunInput[], boolean, boolean]>([
    ['at an empty bench, of a parcel of ours', [], true, true],
    ['at an empty bench, of none', [], false, false],
    ['after an order, of a parcel of ours', toDone, true, true],
    ['after an order, of none', toDone, false, false],
    ['at the scale, of a parcel of ours', toWeigh, true, false],
  ])('a label in sight of the camera %s', (_, inputs, waits, known) => {
    expect(openWorkKnows(label, after(inputs), { waits })).toBe(known);
  });

  test('the card of a sack is meant', () => {
    expect(openWorkKnows({ means: 'sack', text: 's', carrier: 'merrow-post' }, IDLE, { waits: false })).toBe(true);
  });
});
