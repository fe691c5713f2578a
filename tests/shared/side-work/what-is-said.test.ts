import { describe, expect, it } from 'vitest';
import type { ScanMeaning } from '#shared/codes/types.ts';
import type { Command, GivenBy } from '#shared/run/commands.ts';
import { sideCommands } from '#shared/side-work/commands.ts';
import { sideWork, type SideFacts, type SideInput } from '#shared/side-work/side-work.ts';
import { NO_SIDE_WORK, type SideState } from '#shared/side-work/types.ts';
import { alongShelves, compareShelves } from '#shared/side-work/walk.ts';
import { plannedPiece } from '#tests/support/run-fixtures.ts';

const at = (sku: string, place?: string) => {
  const planned = plannedPiece(sku);
  const { place: _, ...piece } = planned.piece;
  return { ...planned, piece: place === undefined ? piece : { ...piece, place } };
};
const BATCH = alongShelves([
  { order: '1', basket: 7, pieces: [at('A', 'K10'), at('B', 'K2')] },
  { order: '2', basket: 4, pieces: [at('C', 'K3')] },
]);
/** The folds of B, C and A, in the order of their shelves: C is laid as it is. */
const FACTS: SideFacts = { now: 10_000, stops: [[0, 1], [], [2]] };
const NAME = { en: 'Pouch', es: 'Sobre' };
const CHOICES = [
  { container: 'pouch-a', name: NAME, orders: 2, pieces: 3 },
  { container: 'box', name: NAME, orders: 2, pieces: 2 },
];
const ASIDE = [
  { order: '7', buyer: 'A. Buyer', pieces: 1, reason: 'missing', place: 2 },
  { order: '8', buyer: 'B. Buyer', pieces: 2, reason: null, place: null },
];

const say = (command: Command, by: GivenBy = 'touch'): SideInput => ({ type: 'command', command, by });
const scan = (meaning: ScanMeaning): SideInput => ({ type: 'scan', by: 'scan', meaning });
const piece = (sku: string) => scan({ means: 'piece', text: sku, sku });
const box = scan({ means: 'container', text: 'b', container: 'box' });
const order = (id: string) => scan({ means: 'order', text: id, order: id });
const start = { person: 'maren', language: 'es' } as const;

const state = (inputs: readonly SideInput[], from: SideState = NO_SIDE_WORK) =>
  inputs.reduce((was, input, index) => sideWork(was, input, { ...FACTS, now: FACTS.now + index * 1000 }).state, from);
const OFF = NO_SIDE_WORK;
const LIST = state([{ type: 'look-at-containers', choices: CHOICES, ...start }]);
const SHELF = state([{ type: 'look-at-aside', choices: ASIDE, ...start }]);
const PREPARING = state([box], LIST);
const WALKING = state([{ type: 'prepared', pieces: BATCH.pieces }], PREPARING);
const LOOKING = state([say('next')], WALKING);
const FOLDING = state([say('next'), say('next')], WALKING);
const SECOND = state(
  Array.from({ length: 5 }, () => say('next')),
  WALKING,
);
const ASKED = state([say('release')], WALKING);
const FOLDED = state([say('next'), say('next'), say('next'), say('release'), say('confirm')], SECOND);

describe('what can be done', () => {
  const always = ['repeat', 'help'];
  it.each<[string, SideState, readonly string[]]>([
    ['at an empty bench', OFF, []],
    ['in a list, before anything is marked', LIST, ['next', 'back', ...always]],
    ['in a list with a mark', state([say('next')], LIST), ['next', 'confirm', 'back', ...always]],
    ['at the shelf, whose list can be printed', SHELF, ['next', 'back', 'print-list', ...always]],
    ['in an empty list', state([{ type: 'look-at-aside', choices: [], ...start }]), ['back', ...always]],
    ['while a batch is prepared', PREPARING, ['back', ...always]],
    [
      'before the first piece is fetched',
      WALKING,
      ['next', 'back', 'item-missing', 'set-aside', 'release', 'print-list', ...always],
    ],
    ['before another one is', SECOND, ['next', 'item-missing', 'set-aside', 'release', 'print-list', ...always]],
    [
      'while a piece is looked over',
      LOOKING,
      ['next', 'back', 'item-damaged', 'set-aside', 'release', 'print-list', ...always],
    ],
    ['while it is folded', FOLDING, ['next', 'back', 'set-aside', 'release', 'print-list', ...always]],
    ['before a question', ASKED, ['confirm', 'cancel', ...always]],
    ['when all is folded', FOLDED, ['next', 'print-list', ...always]],
  ])('%s', (_, here, commands) => {
    expect(sideCommands(here)).toEqual(commands);
  });
});

describe('what cannot be done moves nothing and says so', () => {
  it.each<[string, SideState, SideInput, string, Readonly<Record<string, string>>]>([
    [
      'a choice that is not in the list',
      LIST,
      { type: 'choose', option: 'x', by: 'touch' },
      'not-now',
      { command: 'x' },
    ],
    ['a container that is not in it', SHELF, box, 'not-now', { command: 'container' }],
    ['an order that is not in it', SHELF, order('9'), 'not-now', { command: 'order', order: '9' }],
    ['a piece, before any is asked for', LIST, piece('A'), 'not-now', { command: 'piece' }],
    ['a badge', WALKING, scan({ means: 'staff', text: 'S', staff: 'maren' }), 'not-now', { command: 'staff' }],
    [
      'a code that nobody knows',
      WALKING,
      scan({ means: 'unknown', text: 'zz', why: 'not-known' }),
      'code-not-known',
      { text: 'zz' },
    ],
    [
      'a code that was read by half',
      WALKING,
      scan({ means: 'unknown', text: 'BF', why: 'half-read' }),
      'code-half-read',
      { text: 'BF' },
    ],
    ['a command of another step', WALKING, say('item-damaged'), 'not-now', { command: 'item-damaged' }],
    [
      'the card of such a command',
      LIST,
      scan({ means: 'command', text: 'c', command: 'release' }),
      'not-now',
      { command: 'release' },
    ],
    ['a piece that lies in its basket', SECOND, piece('B'), 'piece-already-scanned', { sku: 'B' }],
    ['a piece of no order here', WALKING, piece('Z'), 'piece-not-in-order', { sku: 'Z', order: '' }],
    ['the piece in hand once more', LOOKING, piece('B'), 'piece-already-scanned', { sku: 'B' }],
    ['another piece than that in hand', LOOKING, piece('C'), 'piece-not-in-order', { sku: 'C', order: '' }],
  ])('%s', (_, here, input, code, values) => {
    const done = sideWork(here, input, FACTS);
    expect(done).toMatchObject({ accepted: false, effects: [], state: { notice: { code, values } } });
    expect(done.state).toEqual({ ...here, notice: done.state.notice });
  });

  it.each<[string, SideState, SideInput]>([
    ['digits', OFF, { type: 'digits', digits: '12', by: 'touch' }],
    ['a batch that nobody waits for', LIST, { type: 'prepared', pieces: BATCH.pieces }],
    ['that there is no batch, when nobody waits for one', WALKING, { type: 'cannot-prepare' }],
    ['orders that left another batch', WALKING, { type: 'left-batch', orders: ['9'] }],
    ['orders that left a batch, in a list', LIST, { type: 'left-batch', orders: ['1'] }],
    ['a list, while a batch is prepared', PREPARING, { type: 'look-at-aside', choices: ASIDE, ...start }],
  ])('%s changes nothing at all', (_, here, input) => {
    expect(sideWork(here, input, FACTS)).toEqual({ state: here, effects: [], accepted: false });
  });
});

describe('what is done is said', () => {
  const done = (here: SideState, input: SideInput) => sideWork(here, input, FACTS);
  it('to whoever began, in the language that is chosen', () => {
    expect(LIST).toMatchObject({ person: 'maren', language: 'es' });
    expect(done(LIST, { type: 'language', language: 'en', by: 'touch' })).toMatchObject({
      accepted: true,
      effects: [],
      state: { language: 'en', screen: LIST.screen },
    });
  });
  it('of a list that is made anew while nothing of it is marked: nothing', () => {
    expect(done(LIST, { type: 'look-at-containers', choices: CHOICES, ...start })).toEqual({
      state: LIST,
      effects: [],
      accepted: true,
    });
  });
  it('again, for help, and on paper', () => {
    expect(done(done(WALKING, say('repeat')).state, say('repeat'))).toEqual({
      accepted: true,
      effects: [],
      state: { ...WALKING, repeats: WALKING.repeats + 2 },
    });
    expect(done(ASKED, say('help'))).toMatchObject({
      accepted: true,
      effects: [{ type: 'call-help' }],
      state: { confirming: ASKED.confirming, notice: { code: 'help-called' } },
    });
    expect(done(WALKING, say('print-list'))).toMatchObject({
      accepted: true,
      effects: [{ type: 'print-list' }],
      state: { notice: { code: 'list-printed' }, screen: WALKING.screen },
    });
    const card = scan({ means: 'command', text: 'c', command: 'print-list' });
    expect(done(WALKING, card).effects).toEqual([{ type: 'print-list' }]);
  });
  it('of a batch: what it holds and where it stands', () => {
    expect(WALKING).toMatchObject({
      notice: null,
      screen: { container: 'box', name: NAME, piece: 0, step: { at: 'fetch' } },
    });
    expect(done(PREPARING, { type: 'prepared', pieces: BATCH.pieces })).toEqual({
      state: WALKING,
      effects: [],
      accepted: true,
    });
    expect(done(WALKING, say('back'))).toMatchObject({
      effects: [{ type: 'end-batch' }],
      state: { screen: { at: 'off' }, notice: { code: 'batch-ended' } },
    });
    expect(done(PREPARING, say('back'))).toMatchObject({ effects: [], state: { screen: { at: 'off' }, notice: null } });
    expect(done(ASKED, say('cancel'))).toMatchObject({ state: { confirming: null, notice: { code: 'cancelled' } } });
    expect(FOLDED.notice).toMatchObject({ code: 'batch-ended' });
    expect(FOLDED.screen).toEqual({ at: 'folded', name: NAME, baskets: [{ order: '2', basket: 4 }] });
    // Released before anything was folded, the bench is free at once.
    expect(sideWork(ASKED, say('confirm'), { ...FACTS, now: 20_000 })).toMatchObject({
      effects: [{ type: 'end-batch' }],
      state: { screen: { at: 'off' }, notice: { code: 'batch-ended' } },
    });
  });
  it('of orders that left it: which, and the basket of the first', () => {
    const left = done(SECOND, { type: 'left-batch', orders: ['2', '1'] });
    expect(left.state.notice).toMatchObject({ code: 'left-batch', values: { order: '1, 2', basket: '7' } });
    const other = done(FOLDING, { type: 'left-batch', orders: ['2'] });
    expect(other).toMatchObject({ accepted: true, effects: [] });
    // The piece in hand belongs to another order: it stays in hand.
    expect(other.state.screen).toMatchObject({ piece: 0, step: { at: 'fold', step: 0 } });
    // The one in hand belongs to the order that left: the next one is to be fetched.
    expect(done(FOLDING, { type: 'left-batch', orders: ['1'] }).state.screen).toMatchObject({
      pieces: [{ sku: 'C' }],
      step: { at: 'fetch' },
    });
    // What lies in its basket still does when an order beside it leaves.
    const third = state([say('next'), say('next'), say('next')], SECOND);
    expect(done(third, { type: 'left-batch', orders: ['2'] }).state.screen).toMatchObject({
      piece: 1,
      pieces: [{ sku: 'B' }, { sku: 'A' }],
    });
    expect(done(SECOND, { type: 'left-batch', orders: ['1'] }).state.screen).toMatchObject({
      at: 'walk',
      piece: 0,
      pieces: [{ sku: 'C' }],
      step: { at: 'fetch' },
    });
  });
});

describe('what takes an order out of the batch', () => {
  const asked = (command: Command, here: SideState, reason?: 'other' | 'damaged') =>
    sideWork(here, { type: 'command', command, by: 'touch', ...(reason === undefined ? {} : { reason }) }, FACTS);
  const later = { ...FACTS, now: FACTS.now + 600 };
  it.each([
    ['item-missing', WALKING, undefined, 'missing'],
    ['item-damaged', LOOKING, undefined, 'damaged'],
    ['set-aside', FOLDING, undefined, 'other'],
    ['set-aside', FOLDING, 'damaged', 'damaged'],
  ] as const)('%s asks first, and tells why', (command, here, given, reason) => {
    const question = asked(command, here, given);
    expect(question).toMatchObject({
      accepted: true,
      effects: [],
      state: {
        screen: here.screen,
        confirming: { command: 'set-aside', reason, since: FACTS.now },
        notice: { code: 'confirm-asked', values: { command: 'set-aside', reason } },
      },
    });
    expect(sideWork(question.state, say('confirm'), later)).toMatchObject({
      effects: [{ type: 'set-aside', order: '1', reason }],
      state: { notice: { code: 'set-aside-done', values: { order: '1', reason } }, confirming: null },
    });
  });
  it('needs no question where the shop says so', () => {
    const done = sideWork(WALKING, say('item-missing'), { ...FACTS, unasked: ['item-missing'] });
    expect(done.effects).toEqual([{ type: 'set-aside', order: '1', reason: 'missing' }]);
    expect(done.state.screen).toMatchObject({ piece: 0, pieces: [{ sku: 'C' }] });
  });
  it('asks of the end of a batch without a reason', () => {
    const { notice } = sideWork(WALKING, say('release'), FACTS).state;
    expect(notice).toEqual(ASKED.notice);
    expect(notice).toMatchObject({ values: { command: 'release', reason: '' } });
  });
  it('can be given its reason with the confirmation', () => {
    const confirm: SideInput = { type: 'command', command: 'confirm', by: 'touch', reason: 'damaged' };
    expect(sideWork(asked('set-aside', FOLDING).state, confirm, later).effects).toMatchObject([{ reason: 'damaged' }]);
  });

  it('is not confirmed by what bounces, nor by what is said much later', () => {
    const question = asked('set-aside', FOLDING).state;
    const after = (ms: number, by: GivenBy) =>
      sideWork(question, say('confirm', by), { ...FACTS, now: FACTS.now + ms });
    for (const by of ['touch', 'key'] as const) {
      expect(after(499, by)).toEqual({ state: question, effects: [], accepted: false });
      expect(after(0, by).accepted).toBe(false);
      expect(after(500, by).effects).toHaveLength(1);
      // A clock that was put back says nothing.
      expect(after(-1, by).effects).toHaveLength(1);
    }
    expect(after(0, 'scan').effects).toHaveLength(1);
    expect(after(30_000, 'voice').effects).toHaveLength(1);
    expect(after(30_001, 'touch').effects).toHaveLength(1);
    const again = after(30_001, 'voice');
    expect(again).toMatchObject({ accepted: true, effects: [] });
    expect(again.state).toEqual({
      ...question,
      repeats: question.repeats + 1,
      confirming: { command: 'set-aside', reason: 'other', since: FACTS.now + 30_001 },
    });
  });
});

describe('the way along the shelves', () => {
  it.each([
    ['K2', 'K10'],
    ['K2', 'K2-A'],
    ['A1', 'B1'],
    ['A', 'A1'],
    ['K2-A', 'K2-B'],
    ['K2', null],
    ['K02', 'K3'],
  ])('%s comes before %s', (first, second) => {
    expect(Math.sign(compareShelves(first, second))).toBe(-1);
    expect(Math.sign(compareShelves(second, first))).toBe(1);
  });
  it('is no way between one place and itself', () => {
    for (const place of ['K2-A', '', null]) expect(compareShelves(place, place)).toBe(0);
  });
  it('goes basket by basket, and as the order has them, where several lie on one shelf or nobody said where', () => {
    const skus = (place?: string) =>
      alongShelves([
        { order: '1', basket: 7, pieces: [at('D', place), at('B', place)] },
        { order: '2', basket: 4, pieces: [at('C', place), at('A', place)] },
      ]).pieces.map((each) => [each.sku, each.place]);
    for (const place of ['K2', undefined]) {
      expect(skus(place)).toEqual(['C', 'A', 'D', 'B'].map((sku) => [sku, place ?? null]));
    }
  });
  it('takes a piece that was scanned before the others, but none that lies in its basket', () => {
    const { screen } = state([piece('A')], SECOND);
    expect(screen).toMatchObject({ piece: 1, pieces: [{ sku: 'B' }, { sku: 'A' }, { sku: 'C' }] });
    // The one whose turn it is stays where it is.
    expect(state([piece('C')], SECOND).screen).toMatchObject({
      pieces: [{ sku: 'B' }, { sku: 'C' }, { sku: 'A' }],
      step: { at: 'look-over' },
    });
    expect(BATCH.folds.map(({ piece: { sku } }) => sku)).toEqual(['B', 'C', 'A']);
  });
  it('stops at each step of a fold where the packer is to be stopped, to and fro', () => {
    const steps = (here: SideState, command: Command, count: number) => {
      const seen: string[] = [];
      let now = here;
      for (let step = 0; step < count; step++) {
        now = sideWork(now, say(command), FACTS).state;
        seen.push(now.screen.at === 'walk' ? JSON.stringify(now.screen.step) : now.screen.at);
      }
      return seen;
    };
    const step = (of: object) => JSON.stringify(of);
    expect(steps(WALKING, 'next', 4)).toEqual(
      [{ at: 'look-over' }, { at: 'fold', step: 0 }, { at: 'fold', step: 1 }, { at: 'lay' }].map(step),
    );
    const laying = state([say('next'), say('next')], SECOND);
    // C has no stop: it is looked over and laid.
    expect(laying.screen).toMatchObject({ piece: 1, step: { at: 'lay' } });
    expect(steps(laying, 'back', 1)).toEqual([step({ at: 'look-over' })]);
    const last = state([say('next'), say('next'), say('next'), say('next'), say('next'), say('next')], SECOND);
    expect(last.screen).toMatchObject({ piece: 2, step: { at: 'lay' } });
    expect(steps(last, 'back', 3)).toEqual([{ at: 'fold', step: 2 }, { at: 'look-over' }, { at: 'fetch' }].map(step));
    expect(sideWork(last, say('next'), FACTS)).toMatchObject({
      effects: [{ type: 'order-folded', order: '1' }, { type: 'end-batch' }],
      state: {
        notice: { code: 'laid-in-basket', values: { basket: '7' } },
        screen: {
          at: 'folded',
          baskets: [
            { order: '2', basket: 4 },
            { order: '1', basket: 7 },
          ],
        },
      },
    });
  });
});
