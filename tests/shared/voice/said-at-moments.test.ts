import { describe, expect, it } from 'vitest';
import { cueOf } from '#shared/voice/cue.ts';
import type { BenchView, PieceLine, Task } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { benchView, ORDER, TASKS, type TaskName } from '#tests/station-ui/fixtures.ts';

const quiet = { notice: null } as const;
const full = (task: TaskName, change: Partial<BenchView> = {}, language: Language = 'en') =>
  cueOf(benchView(task, language, { ...quiet, ...change })).full;
const notice = (code: NonNullable<BenchView['notice']>['code'], values: Readonly<Record<string, string>>) =>
  ({ notice: { code, tone: 'attention', values } }) as const;
const line = (title: string, place: string | null, gathered: number, due = 1) =>
  ({ sku: title, title, place, due, gathered, mark: gathered >= due ? 'done' : 'waiting' }) as const;
const gather = (missing: number, pieces: readonly PieceLine[], more: object = {}) =>
  full('gather', { task: { at: 'gather', missing }, order: { ...ORDER, pieces, ...more } });

describe('which piece to find', () => {
  const [tee, coat] = [line('tee', 'K4', 0), line('coat', null, 0)];

  it.each<[string, () => string, string]>([
    [
      'the first of several, after how many',
      () => gather(2, [tee, coat]),
      'Find two pieces. Find: tee, on shelf K four.',
    ],
    ['the only one', () => gather(1, [tee]), 'Find: tee, on shelf K four.'],
    ['the next one, once one is there', () => gather(2, [line('hat', 'A1', 1), coat, tee]), 'Find: coat.'],
    ['the second of two alike', () => gather(1, [line('sock', 'A1', 1, 2)]), 'Find: sock, on shelf A one.'],
    ['none', () => gather(0, [line('hat', 'A1', 1)]), 'All pieces are here.'],
    ['none that is known', () => gather(1, [line('hat', 'A1', 1)]), 'All pieces are here.'],
    [
      'where it lies together, no shelf',
      () => gather(1, [tee], { lies: { at: 'basket', number: 3, folded: true } }),
      'Find: tee.',
    ],
    ['on a shelf with a name', () => gather(1, [line('tee', 'left rail', 0)]), 'Find: tee, on shelf left rail.'],
    ['on one with small letters in it', () => gather(1, [line('tee', 'Rail A', 0)]), 'Find: tee, on shelf Rail A.'],
    ['on one with a long code', () => gather(1, [line('tee', 'ABCDEFGHIJK', 0)]), 'Find: tee, on shelf ABCDEFGHIJK.'],
  ])('%s', (_, said, expected) => {
    expect(said()).toBe(expected);
  });
});

describe('what is said at other moments', () => {
  it.each<[string, () => string, string]>([
    [
      'no order waits',
      () => full('idle', { day: { waiting: 0, setAside: 0, done: 0, atRisk: 0, missed: 0 } }),
      'No order is waiting.',
    ],
    [
      'one order waits',
      () => full('idle', { day: { waiting: 1, setAside: 0, done: 0, atRisk: 0, missed: 0 } }),
      'Ready. One order is waiting.',
    ],
    [
      'no pockets to empty',
      () =>
        full('look-over', { task: { at: 'look-over', piece: 'hat', index: 0, of: 1, cautions: ['must-not-press'] } }),
      'Look it over: hat.',
    ],
    [
      'no film bag',
      () => full('fill', { task: { at: 'fill', cautions: ['must-not-press'], asUsual: [] } }),
      'Put it into the Pouch ten by thirteen. Do not seal it yet.',
    ],
    [
      'a parcel for two',
      () => full('seal', { task: { at: 'seal', cautions: ['lifting'], weighed: null } }),
      'The new slip inside. Seal the parcel. Heavy: lift with two people.',
    ],
    [
      'a parcel to lift with care',
      () => full('seal', { task: { at: 'seal', cautions: ['lifting-care'], weighed: null } }),
      'The new slip inside. Seal the parcel.',
    ],
    ['nothing of practice, which is read', () => full('idle', { task: { at: 'practice' } as Task }), ''],
    [
      'a number that begins',
      () => full('label', { task: { at: 'label', postcode: '55802', entering: '' } }),
      'Give the digits of the label’s number, or of its postcode. A few at a time.',
    ],
    ['a bench that tells nothing', () => full('fold', { guidance: null }), 'Fold the right third over.'],
    [
      'what it should weigh, in whole grams',
      () => full('weigh', { units: { mass: 'g', massPlaces: 0, length: 'cm' } }),
      'Weigh it, not sealed yet. About four hundred forty-two grams is expected.',
    ],
  ])('%s', (_, said, expected) => {
    expect(said()).toBe(expected);
  });

  it('a slip that did not come, once more at the end, and not twice in one breath', () => {
    const packed = 'Order one zero four seven is packed. Put it with the ones to be collected.';
    expect(full('done', { slip: 'printed' })).toBe(packed);
    const failed = full('done', { slip: 'failed' });
    const unknown = full('done', { slip: 'unknown' });
    expect(failed.startsWith(`${packed} `)).toBe(true);
    expect(unknown.startsWith(`${packed} `)).toBe(true);
    expect(new Set([packed, failed, unknown]).size).toBe(3);
    const told = full('done', { slip: 'failed', ...notice('print-failed', {}) });
    expect(told).toBe(`${failed.slice(packed.length + 1)} ${packed}`);
    expect(full('done', { slip: 'unknown', ...notice('piece-found', {}) })).toBe(`Right piece. ${unknown}`);
  });

  it('the piece of a batch and the basket it goes into', () => {
    const piece = { order: '7', basket: 3, sku: 'A', title: 'tee', place: 'K4', index: 0, of: 2 };
    const side = (screen: 'fetch' | 'lay', change: object = {}) =>
      full('idle', { task: { at: 'side', screen, piece: { ...piece, ...change } } });
    expect(side('fetch')).toBe('Find: tee, on shelf K four.');
    expect(side('fetch', { place: null })).toBe('Find: tee.');
    expect(side('lay')).toBe('Lay it in basket three.');
    expect(full('idle', { task: { at: 'side', screen: 'aside', choices: [], marked: null } })).toBe('');
  });
});

describe('names in what is said', () => {
  it('a container of the plan by its name, another by its code', () => {
    expect(full('fold', notice('next-plan', { container: 'pouch-10x13' }))).toMatch(
      /^New plan: Pouch ten by thirteen\./,
    );
    expect(full('fold', notice('next-plan', { container: 'box-1' }))).toMatch(/^New plan: box- one\./);
    expect(full('idle', notice('next-plan', { container: 'box-1' }))).toMatch(/^New plan: box- one\./);
  });

  it('who has signed on by name', () => {
    expect(full('idle', notice('packer-changed', { staff: 'r1' }))).toContain('Rosa');
    expect(full('idle', { ...notice('packer-changed', { staff: 'r1' }), packer: null })).not.toContain('Rosa');
  });

  it('what is asked stands by itself', () => {
    expect(full('weigh', { confirming: { command: 'next' } })).toBe('Sure? Say yes confirm, or cancel that.');
    expect(full('label', { confirming: { command: 'print-again' } })).toBe(
      'Print the slip again? Say yes confirm, or cancel that.',
    );
    expect(full('gather', { confirming: { command: 'go-without' }, order: null })).toBe(
      'Send the order without this piece? Say yes confirm, or cancel that.',
    );
    const batch = { order: '7', basket: 3, sku: 'A', title: 'tee', place: null, index: 0, of: 2 };
    expect(full('fold', { confirming: { command: 'set-aside' }, batch })).toMatch(/^Set this order aside\?/);
  });
});

describe('what makes it a new thing to say', () => {
  const key = (task: Task, change: Partial<BenchView> = {}) =>
    cueOf(benchView('weigh', 'en', { ...quiet, task, ...change })).key;
  const lookOver = (index: number): Task => ({ at: 'look-over', piece: 'hat', index, of: 2, cautions: [] });
  const decide = TASKS.decide;
  const side = (screen: 'fetch' | 'lay'): Task => ({
    at: 'side',
    screen,
    piece: { order: '7', basket: 3, sku: 'A', title: 'tee', place: null, index: 0, of: 2 },
  });
  const order = (change: object) => ({ order: { ...ORDER, ...change } });
  const weigh: Task = { at: 'weigh' };
  const batch = (index: number) => ({
    batch: { order: '7', basket: 3, sku: 'A', title: 'tee', place: null, index, of: 2 },
  });

  it.each<[string, () => string, () => string]>([
    ['the next piece that is looked over', () => key(lookOver(0)), () => key(lookOver(1))],
    [
      'the next piece that is folded',
      () => key({ ...TASKS.fold, pieceIndex: 0 }),
      () => key({ ...TASKS.fold, pieceIndex: 1 }),
    ],
    [
      'another reading',
      () => key(decide),
      () => key({ ...decide, reading: { ...decide.reading, at: decide.reading.at + 1 } }),
    ],
    ['another reason to decide', () => key(decide), () => key({ ...decide, because: 'over' })],
    ['the next parcel', () => key(weigh, order({ parcel: 0 })), () => key(weigh, order({ parcel: 1 }))],
    ['the next piece of a batch', () => key(weigh, batch(0)), () => key(weigh, batch(1))],
    ['another screen beside packing', () => key(side('fetch')), () => key(side('lay'))],
    [
      'one more piece found',
      () => key({ at: 'gather', missing: 1 }, order({ pieces: [line('a', null, 0), line('b', null, 1)] })),
      () => key({ at: 'gather', missing: 1 }, order({ pieces: [line('a', null, 1), line('b', null, 0)] })),
    ],
    [
      'eleven of one and one of another',
      () => key(weigh, order({ pieces: [line('a', null, 1), line('b', null, 11)] })),
      () => key(weigh, order({ pieces: [line('a', null, 11), line('b', null, 1)] })),
    ],
    ['another order', () => key(weigh, order({ id: '1' })), () => key(weigh, order({ id: '2' }))],
    [
      'another packer',
      () => key(weigh, { packer: { name: 'Rosa', language: 'en' } }),
      () => key(weigh, { packer: { name: 'Ana', language: 'en' } }),
    ],
    ['nobody any more', () => key(weigh), () => key(weigh, { packer: null })],
    ['something said', () => key(weigh), () => key(weigh, notice('scale-empty', {}))],
  ])('%s', (_, before, after) => {
    expect(after()).not.toBe(before());
  });

  it('is neither the size of what is folded nor what else a task shows', () => {
    expect(key({ ...TASKS.fold, block: { ...TASKS.fold.block, width: 1 } })).toBe(key(TASKS.fold));
    expect(key({ ...decide, drift: decide.reading.mass })).toBe(key(decide));
  });
});
