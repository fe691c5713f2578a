import { expect, it } from 'vitest';
import { transition } from '#shared/run/transition.ts';
import type { RunInput } from '#shared/run/types.ts';
import { after, command, FACTS, order, parcel, plan, taken } from '#tests/support/run-fixtures.ts';
import { ONE, toDone, toFill, toFold, toSeal, toWeigh } from '#tests/support/run-moments.ts';
import { aside, badge, confirmed, FOUND, lying, notNow, toldAs, type Told } from '#tests/support/run-told.ts';

const tooTight = [...toFill, command('too-tight')];
const replanned = (id: string, recipe = 'flat'): RunInput => ({
  type: 'replanned',
  plan: plan([parcel(['A', 'B'], id, recipe)]),
});

const FROM_OUTSIDE: readonly Told[] = [
  ['an order is taken', [], ONE, null, []],
  [
    'and its first piece was scanned',
    [],
    { ...(ONE as Extract<RunInput, { type: 'order-taken' }>), sku: 'A' },
    ['well', 'piece-found', FOUND],
    [],
  ],
  [
    'whoever packs lacks skills',
    [],
    { ...(ONE as Extract<RunInput, { type: 'order-taken' }>), lacking: ['suits', 'hats'], addressDoubtful: true },
    ['attention', 'skill-lacking', { skill: 'suits, hats' }],
    [],
  ],
  [
    'its address is doubtful',
    [],
    {
      ...(ONE as Extract<RunInput, { type: 'order-taken' }>),
      lacking: [],
      addressDoubtful: true,
      lies: { at: 'aside', number: 2 },
    },
    ['attention', 'address-doubtful', { order: '1047' }],
    [],
  ],
  [
    'it lies folded',
    [],
    lying({ at: 'basket', number: 3, folded: true }),
    ['well', 'order-folded', { basket: '3' }],
    [],
  ],
  [
    'it has to be folded otherwise',
    [],
    lying({ at: 'basket', number: 3, folded: false }),
    ['attention', 'folded-otherwise', { basket: '3' }],
    [],
  ],
  ['it was set aside', [], lying({ at: 'aside', number: 2 }), ['attention', 'order-was-aside', { place: '2' }], []],
  ['a second order comes', [ONE], taken([parcel(['Q'])]), null, []],
  [
    'no order waits',
    [],
    { type: 'order-refused', code: 'no-order-waiting', order: '' },
    ['attention', 'no-order-waiting', { order: '' }],
    [],
  ],
  [
    'an order cannot be planned',
    [],
    { type: 'order-refused', code: 'cannot-be-planned', order: '7', why: 'nothing-fits', values: { title: 'piece Q' } },
    ['attention', 'cannot-be-planned', { order: '7', why: 'nothing-fits', title: 'piece Q' }],
    [],
  ],
  ['a refusal comes too late', [ONE], { type: 'order-refused', code: 'no-order-waiting', order: '' }, null, []],
  [
    'an order is chosen from the list',
    [],
    { type: 'take-up', order: '7', by: 'touch' },
    null,
    [{ type: 'take-order', order: '7' }],
  ],
  [
    'an order is chosen from the list within another',
    [ONE],
    { type: 'take-up', order: '7', by: 'touch' },
    notNow('order', { order: '7' }),
    [],
  ],
  [
    'where it was set aside',
    [...toFold, ...confirmed('set-aside')],
    { type: 'aside-placed', order: '1047', place: 4 },
    ['well', 'set-aside-done', { order: '1047', reason: 'other', place: '4' }],
    [],
  ],
  [
    'where another was set aside',
    [...toFold, ...confirmed('set-aside')],
    { type: 'aside-placed', order: '7', place: 4 },
    aside('other'),
    [],
  ],
  [
    'where it was set aside, when something else is said',
    [...toFold, ...confirmed('set-aside'), badge('rosa')],
    { type: 'aside-placed', order: '1047', place: 4 },
    ['well', 'packer-changed', { staff: 'rosa' }],
    [],
  ],
  ['where it was set aside, when nothing is said', [], { type: 'aside-placed', order: '1047', place: 4 }, null, []],
  [
    'the office takes it',
    toFill,
    { type: 'released-by-office', order: '1047', by: 'olga' },
    ['attention', 'released-by-office', { order: '1047' }],
    [{ type: 'release-order', order: '1047', by: 'olga' }],
  ],
  [
    'the office takes it out of a basket',
    [lying({ at: 'basket', number: 3, folded: true })],
    { type: 'released-by-office', order: '1047' },
    ['attention', 'released-by-office', { order: '1047', basket: '3' }],
    [{ type: 'release-order', order: '1047' }],
  ],
  ['the office takes another', toFill, { type: 'released-by-office', order: '7' }, null, []],
  [
    'the office takes what is packed',
    toDone,
    { type: 'released-by-office', order: '1047' },
    ['well', 'label-right', { number: '9200111122223333444455' }],
    [],
  ],
  ['the office takes from an empty bench', [], { type: 'released-by-office', order: '7' }, null, []],
  [
    'it goes on at another bench',
    toFill,
    { type: 'given-over', order: '1047', to: 'bench-2' },
    ['attention', 'run-given-over', { order: '1047', bench: 'bench-2' }],
    [],
  ],
  ['another goes on at another bench', toFill, { type: 'given-over', order: '7', to: 'bench-2' }, null, []],
  [
    'what is packed goes on nowhere',
    toDone,
    { type: 'given-over', order: '1047', to: 'bench-2' },
    ['well', 'label-right', { number: '9200111122223333444455' }],
    [],
  ],
  ['nothing goes on at another bench', [], { type: 'given-over', order: '7', to: 'bench-2' }, null, []],
  ['another container', tooTight, replanned('pouch-b'), ['attention', 'next-plan', { container: 'pouch-b' }], []],
  [
    'another container and another fold',
    tooTight,
    replanned('pouch-b', 'compact'),
    ['attention', 'next-plan', { container: 'pouch-b' }],
    [],
  ],
  ['another container, too late', toWeigh, replanned('pouch-b'), null, []],
  ['a plan of nothing', tooTight, { type: 'replanned', plan: plan([]) }, null, []],
  ['no other container', tooTight, { type: 'no-other-plan' }, ['attention', 'no-other-plan'], []],
  ['printed', toSeal, { type: 'print-result', outcome: 'printed' }, null, []],
  ['not printed', toSeal, { type: 'print-result', outcome: 'failed' }, ['attention', 'print-failed'], []],
  ['perhaps printed', toSeal, { type: 'print-result', outcome: 'unknown' }, ['attention', 'print-unknown'], []],
  ['printed, what nobody asked for', [], { type: 'print-result', outcome: 'failed' }, null, []],
  [
    'it goes on without a piece',
    [ONE, ...confirmed('go-without')],
    {
      type: 'shortened',
      order: order([{ sku: 'B', count: 1 }]),
      plan: plan([parcel(['B'])]),
      sku: 'A',
      follows: '1047-2',
    },
    ['attention', 'goes-without', { title: 'piece A', order: '1047-2' }],
    [],
  ],
  [
    'it cannot be divided',
    [ONE, ...confirmed('go-without')],
    { type: 'not-shortened', order: '1047' },
    notNow('go-without'),
    [],
  ],
  [
    'what is left of it cannot be planned',
    [ONE, ...confirmed('go-without')],
    { type: 'not-shortened', order: '1047', why: 'nothing-fits' },
    ['attention', 'cannot-be-planned', { order: '1047', why: 'nothing-fits' }],
    [],
  ],
  ['another one cannot be divided', [ONE], { type: 'not-shortened', order: '7', why: 'nothing-fits' }, null, []],
  ['it cannot be divided any more', toFold, { type: 'not-shortened', order: '1047', why: 'nothing-fits' }, null, []],
  ['nothing can be divided at an empty bench', [], { type: 'not-shortened', order: '1047' }, null, []],
];

toldAs('what is said and asked for when something comes from outside', FROM_OUTSIDE);

it.each<[string, readonly RunInput[], RunInput]>([
  ['a language', [], { type: 'language', language: 'es', by: 'touch' }],
  ['where it was set aside', [], { type: 'aside-placed', order: '1047', place: 4 }],
  ['how much is told', toFold, { type: 'guidance', guidance: {} }],
  ['that there is no other plan', tooTight, { type: 'no-other-plan' }],
])('%s is taken, so that it is stored, and asks for nothing', (_, from, input) => {
  expect(transition(after(from), input, FACTS)).toMatchObject({ accepted: true, effects: [] });
});

it.each<[string, readonly RunInput[], RunInput]>([
  ['a second order', [ONE], taken([parcel(['Q'])])],
  ['a refusal too late', [ONE], { type: 'order-refused', code: 'no-order-waiting', order: '' }],
  ['another plan too late', toWeigh, replanned('pouch-b')],
])('%s changes nothing', (_, from, input) => {
  const state = after(from);
  expect(transition(state, input, FACTS)).toEqual({ state, effects: [], accepted: false });
});
