import { describe, expect, it } from 'vitest';
import type { Kind } from '#shared/garments/types.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import { IDLE } from '#shared/run/initial.ts';
import type { RunInput } from '#shared/run/types.ts';
import type { BenchView } from '#shared/wire/views.ts';
import {
  after,
  command,
  FACTS,
  labelScan,
  ounces,
  parcel,
  pieceScan,
  plannedPiece,
  taken,
} from '#tests/support/run-fixtures.ts';
import { weighed } from '#tests/support/run-moments.ts';
import { benchViewFixture } from '#tests/support/view-fixture.ts';

const words = (text: string) => ({ en: text, es: text });
const kind = (id: string, cautions: readonly string[]): [string, Kind] => [
  id,
  { id, cautions } as Partial<Kind> as Kind,
];

/** Two parcels of one order: a T-shirt and a coat in a film pouch, and a belt, which is not folded, in a carton. */
const COAT = {
  ...plannedPiece('B', 'in-thirds'),
  piece: { sku: 'B', title: 'piece B', kind: 'coat', place: 'shelf 4' },
};
const BELT = { ...plannedPiece('C', 'coiled', 0), piece: { sku: 'C', title: 'piece C', kind: 'belt' } };
const pouch = parcel([]);
const FIRST: ParcelPlan = {
  ...pouch,
  pieces: [plannedPiece('A'), COAT],
  container: { ...pouch.container, cautions: ['film-bag-children'] },
};
const box = parcel([], 'box-1');
const SECOND: ParcelPlan = { ...box, pieces: [BELT], container: { ...box.container, type: 'carton' } };
const SHOP = {
  wardrobe: {
    kinds: new Map([kind('t-shirt', []), kind('coat', ['pockets-lithium', 'must-not-press']), kind('belt', [])]),
    cloths: new Map(),
  },
};

const next = command('next');

/** What a packer sees: the middle of the screen, where the needle stands, and the button beside each piece. */
interface Moment {
  readonly when: string;
  readonly input: RunInput;
  readonly task: Partial<BenchView['task']>;
  readonly needle: number;
  /** of A, B and C: `.` waiting, `>` at hand, `+` done */
  readonly marks: string;
  readonly parcel?: number;
}

const SEAM = [
  'gather',
  'look-over piece A',
  'look-over piece B',
  'look-over piece C',
  'fold piece A',
  'fold piece B',
  'fill',
  'weigh',
  'seal',
  'label',
  'fill',
  'weigh',
  'seal',
  'label',
];

const fold = (piece: 'A' | 'B', recipe: string, step: number): Moment['task'] => ({
  at: 'fold',
  piece: `piece ${piece}`,
  pieceIndex: piece === 'A' ? 0 : 1,
  pieces: 2,
  recipe: words(recipe),
  step,
  steps: 2,
  words: words(`step ${String(step + 1)}`),
  spoken: words(`step ${String(step + 1)}`),
  why: null,
  told: 'step',
  usual: null,
});
const lookOver = (piece: string, index: number, cautions: readonly string[]): Moment['task'] => ({
  at: 'look-over',
  piece,
  index,
  of: 3,
  cautions,
});

const MOMENTS: readonly Moment[] = [
  { when: 'taken', input: taken([FIRST, SECOND]), task: { at: 'gather', missing: 3 }, needle: 0, marks: '...' },
  { when: 'A is found', input: pieceScan('A'), task: { at: 'gather', missing: 2 }, needle: 0, marks: '+..' },
  { when: 'C is found', input: pieceScan('C'), task: { at: 'gather', missing: 1 }, needle: 0, marks: '+.+' },
  { when: 'B is found', input: pieceScan('B'), task: lookOver('piece A', 0, []), needle: 1, marks: '>..' },
  { when: 'A is sound', input: next, task: lookOver('piece B', 1, ['pockets-lithium']), needle: 2, marks: '.>.' },
  { when: 'B is sound', input: next, task: lookOver('piece C', 2, []), needle: 3, marks: '..>' },
  { when: 'C is sound', input: next, task: fold('A', 'flat', 0), needle: 4, marks: '>..' },
  { when: 'A is half folded', input: next, task: fold('A', 'flat', 1), needle: 4, marks: '>..' },
  { when: 'A is folded', input: next, task: fold('B', 'in-thirds', 0), needle: 5, marks: '+>.' },
  { when: 'B is half folded', input: next, task: fold('B', 'in-thirds', 1), needle: 5, marks: '+>.' },
  {
    when: 'B is folded',
    input: next,
    // The pockets were told of before; what must not be pressed and the film bag matter now.
    task: { at: 'fill', cautions: ['must-not-press', 'film-bag-children'], asUsual: [] },
    needle: 6,
    marks: '++.',
  },
  { when: 'the pouch is closed', input: next, task: { at: 'weigh' }, needle: 7, marks: '++.' },
  {
    when: 'it weighs much less',
    input: weighed('9'),
    task: { at: 'decide', because: 'mismatch', paid: { minor: 625, currency: 'USD' }, nextPrice: null },
    needle: 7,
    marks: '++.',
  },
  {
    when: 'it is close to the ceiling',
    input: weighed('15.9'),
    task: {
      at: 'decide',
      because: 'close',
      paid: { minor: 625, currency: 'USD' },
      nextPrice: { minor: 805, currency: 'USD' },
      lighter: [],
      drift: FACTS.weigh.drift,
    },
    needle: 7,
    marks: '++.',
  },
  {
    when: 'it weighs what it should',
    input: weighed('14.5'),
    task: { at: 'seal', cautions: [], weighed: ounces('14.5'), lift: null },
    needle: 8,
    marks: '++.',
  },
  { when: 'it is sealed', input: next, task: { at: 'label', postcode: '55802' }, needle: 9, marks: '++.' },
  {
    when: 'the label cannot be scanned',
    input: command('enter-number'),
    task: { at: 'label', postcode: '55802', entering: '' },
    needle: 9,
    marks: '++.',
  },
  {
    when: 'its digits come',
    input: { type: 'digits', digits: '558', by: 'touch' },
    task: { at: 'label', postcode: '55802', entering: '558' },
    needle: 9,
    marks: '++.',
  },
  {
    when: 'the label of another place',
    input: labelScan('N0', '00501'),
    task: { at: 'label', postcode: '55802', stop: { why: 'postcode', found: '00501', due: '55802' } },
    needle: 9,
    marks: '++.',
  },
  {
    when: 'labelled; the belt is not folded',
    input: labelScan('N1', '55802'),
    task: { at: 'fill', cautions: [], asUsual: [] },
    needle: 10,
    marks: '+++',
    parcel: 1,
  },
  { when: 'the carton is closed', input: next, task: { at: 'weigh' }, needle: 11, marks: '+++', parcel: 1 },
  {
    when: 'over the ceiling',
    input: weighed('16.2'),
    task: { at: 'decide', because: 'over' },
    needle: 11,
    marks: '+++',
    parcel: 1,
  },
  {
    when: 'the next bracket',
    input: command('pay-next-bracket'),
    task: { at: 'decide' },
    needle: 11,
    marks: '+++',
    parcel: 1,
  },
  {
    when: 'is paid; a carton is trimmed with a knife',
    input: command('confirm'),
    task: { at: 'seal', cautions: ['knife'], weighed: null, lift: null },
    needle: 12,
    marks: '+++',
    parcel: 1,
  },
  { when: 'sealed', input: next, task: { at: 'label', postcode: '55802' }, needle: 13, marks: '+++', parcel: 1 },
  {
    when: 'labelled',
    input: labelScan('N2', '55802'),
    task: { at: 'done', order: '1047', seconds: 25 },
    needle: 14,
    marks: '+++',
    parcel: 1,
  },
];

const SIGNS = { waiting: '.', current: '>', done: '+' } as const;

it.each(MOMENTS.map((moment, index) => [moment.when, index] as const))('%s', (_, index) => {
  const state = after(MOMENTS.slice(0, index + 1).map(({ input }) => input));
  const facts = { ...FACTS, now: FACTS.now + (index + 1) * 1000 };
  const { task, seam, order } = benchViewFixture(state, SHOP, facts);
  const { task: expected, needle, marks, parcel: here = 0 } = MOMENTS[index]!;
  expect(task).toMatchObject(expected);
  if (task.at === 'label') expect(task).toEqual(expected);
  expect(seam.stitches.map(({ step, about }) => (about === undefined ? step : `${step} ${about}`))).toEqual(SEAM);
  expect(seam.at).toBe(needle);
  expect(order?.pieces.map(({ mark }) => SIGNS[mark]).join('')).toBe(marks);
  expect([order?.parcel, order?.parcels]).toEqual([here, 2]);
});

describe('two of one piece', () => {
  const marks = (inputs: readonly RunInput[]) =>
    benchViewFixture(after(inputs)).order?.pieces.map(({ mark }) => SIGNS[mark]);
  const both = [taken([parcel(['A', 'B', 'A'])]), pieceScan('A'), pieceScan('B'), pieceScan('A')];
  const folding = [...both, next, next, next];

  it('are at hand as long as one of them is, and waiting as long as one is still to come', () => {
    expect(marks(both.slice(0, 2))).toEqual(['.', '.']);
    expect(marks(folding)).toEqual(['>', '.']);
    expect(marks([...folding, next, next])).toEqual(['.', '>']);
    expect(marks([...folding, next, next, next, next])).toEqual(['>', '+']);
  });

  it('of two parcels wait until the second one', () => {
    const apart = [taken([parcel(['A', 'B']), parcel(['A'])]), pieceScan('A'), pieceScan('B'), pieceScan('A')];
    const toB = [...apart, next, next, next, next, next];
    expect(marks(toB)).toEqual(['.', '>']);
    expect(marks([...toB, next, next])).toEqual(['.', '+']);
  });
});

it('the time of an order begins when it was taken, whatever the clock did since', () => {
  const done = after(MOMENTS.map(({ input }) => input));
  const seconds = (endedAt: number, startedAt: number | null) =>
    benchViewFixture({ ...done, startedAt, endedAt }, SHOP, FACTS).task;
  expect(seconds(200_400, 100_000)).toEqual({ at: 'done', order: '1047', seconds: 100 });
  expect(seconds(99_000, 100_000)).toMatchObject({ seconds: 0 });
  expect(seconds(99_000, null)).toMatchObject({ seconds: 0 });
  // What is done between two orders, a sack loaded or a badge scanned, makes the last one no longer.
  const shown = (now: number) => benchViewFixture({ ...done, startedAt: FACTS.now }, SHOP, { ...FACTS, now }).task;
  expect(shown(FACTS.now + 600_000)).toEqual(shown(FACTS.now + 25_000));
});

it('an empty bench shows nothing of an order', () => {
  expect(benchViewFixture(IDLE)).toMatchObject({
    task: { at: 'idle' },
    seam: { stitches: [], at: 0 },
    order: null,
    container: null,
    weigh: null,
  });
});
