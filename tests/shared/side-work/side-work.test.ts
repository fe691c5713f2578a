import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '#shared/run/commands.ts';
import { sideCommands } from '#shared/side-work/commands.ts';
import { sideWork, type SideEffect, type SideFacts, type SideInput } from '#shared/side-work/side-work.ts';
import { NO_SIDE_WORK, type SideState } from '#shared/side-work/types.ts';
import { alongShelves, compareShelves } from '#shared/side-work/walk.ts';
import { plannedPiece } from '#tests/support/run-fixtures.ts';

const at = (sku: string, place: string) => {
  const planned = plannedPiece(sku);
  return { ...planned, piece: { ...planned.piece, place } };
};
/** Two orders, their pieces on shelves that lie between each other. */
const BATCH = alongShelves([
  { order: '1', basket: 1, pieces: [at('A', 'K10'), at('B', 'K2')] },
  { order: '2', basket: 4, pieces: [at('C', 'K3')] },
]);
const FACTS: SideFacts = { now: 10_000, stops: BATCH.folds.map(() => [0, 1]) };
const NAME = { en: 'Pouch', es: 'Sobre' };
const CHOICES = [
  { container: 'pouch-a', name: NAME, orders: 2, pieces: 3 },
  { container: 'box', name: NAME, orders: 2, pieces: 2 },
];
const ASIDE = [
  { order: '7', buyer: 'A. Buyer', pieces: 1, reason: 'missing', place: 2 },
  { order: '8', buyer: 'B. Buyer', pieces: 2, reason: null, place: null },
];

const begin: SideInput = { type: 'look-at-containers', choices: CHOICES, person: null, language: null };
const say = (command: (typeof COMMANDS)[number]): SideInput => ({ type: 'command', command, by: 'touch' });
const scan = (sku: string): SideInput => ({ type: 'scan', by: 'scan', meaning: { means: 'piece', text: sku, sku } });
const choose = (option: string): SideInput => ({ type: 'choose', option, by: 'touch' });
const prepared: SideInput = { type: 'prepared', pieces: BATCH.pieces };

function walk(inputs: readonly SideInput[], from: SideState = NO_SIDE_WORK) {
  let state = from;
  const effects: SideEffect[] = [];
  inputs.forEach((input, index) => {
    const done = sideWork(state, input, { ...FACTS, now: FACTS.now + index * 1000 });
    ({ state } = done);
    effects.push(...done.effects);
  });
  return { state, effects, screen: state.screen };
}

const walking = walk([begin, choose('pouch-a'), prepared]).state;

it('walks along the shelves, ten after two, and what has no shelf comes last', () => {
  expect(BATCH.pieces.map(({ sku, basket, fold }) => [sku, basket, fold])).toEqual([
    ['B', 1, 0],
    ['C', 4, 1],
    ['A', 1, 2],
  ]);
  expect([null, 'K10', 'K2-B', 'K2-A', 'B1'].sort(compareShelves)).toEqual(['B1', 'K2-A', 'K2-B', 'K10', null]);
});

it('a list that is made anew while it is shown keeps the mark at its choice', () => {
  const marked = walk([begin, say('next'), say('next')]).state;
  expect(marked.marked).toBe(1);
  const again = { ...begin, choices: [CHOICES[1], CHOICES[0]] } as SideInput;
  expect(walk([again], marked).state).toMatchObject({ marked: 0, screen: { at: 'containers' } });
  const without = { ...begin, choices: [CHOICES[0]] } as SideInput;
  expect(walk([without], marked).state.marked).toBeNull();
  // Nothing else that is done is left for a list.
  expect(walk([begin], walking).state).toBe(walking);
});

describe('a batch', () => {
  it('is chosen by marking and confirming as by a touch, and by its bin', () => {
    const prepare = [{ type: 'prepare', container: 'box' }];
    expect(walk([begin, say('next'), say('next'), say('confirm')]).effects).toEqual(prepare);
    expect(walk([begin, choose('box')]).effects).toEqual(prepare);
    const bin: SideInput = { type: 'scan', by: 'scan', meaning: { means: 'container', text: 'b', container: 'box' } };
    expect(walk([begin, bin]).effects).toEqual(prepare);
    expect(walk([begin, choose('none such')]).effects).toEqual([]);
  });

  it('is fetched, looked over, folded and laid in its basket, piece after piece, by "next" alone', () => {
    const piece = [say('next'), say('next'), say('next'), say('next'), say('next')];
    const first = walk(piece, walking);
    // The first order has another piece to come.
    expect(first.effects).toEqual([]);
    expect(first.state.notice).toMatchObject({ code: 'laid-in-basket', values: { basket: '1' } });
    const whole = walk([...piece, ...piece, ...piece], walking);
    expect(whole.effects).toEqual([
      { type: 'order-folded', order: '2' },
      { type: 'order-folded', order: '1' },
      { type: 'end-batch' },
    ]);
    expect(whole.screen).toMatchObject({
      at: 'folded',
      baskets: [
        { order: '1', basket: 1 },
        { order: '2', basket: 4 },
      ],
    });
    expect(walk([say('next')], whole.state).screen).toEqual({ at: 'off' });
  });

  it('takes any of its pieces first, proves it, and refuses a piece of no order in it', () => {
    const { state } = walk([scan('A')], walking);
    expect(state.screen).toMatchObject({ at: 'walk', piece: 0, step: { at: 'look-over' } });
    expect(state.screen.at === 'walk' && state.screen.pieces.map(({ sku }) => sku)).toEqual(['A', 'B', 'C']);
    expect(walk([scan('Z')], walking).state.notice).toMatchObject({ code: 'piece-not-in-order', tone: 'stop' });
    // While one is folded, another in hand is a mix-up.
    expect(walk([scan('A'), say('next'), scan('B')], walking).state.notice?.code).toBe('piece-not-in-order');
    expect(walk([scan('A'), say('next'), scan('A'), scan('A')], walking).screen).toMatchObject({ piece: 1 });
  });

  it('goes back within a piece, never into a basket', () => {
    const at = (inputs: readonly SideInput[]) => {
      const { screen } = walk(inputs, walking);
      return screen.at === 'walk' ? [screen.piece, screen.step] : screen.at;
    };
    const next = say('next');
    const back = say('back');
    expect(at([next, next, next, back])).toEqual([0, { at: 'fold', step: 0 }]);
    expect(at([next, next, next, next, back])).toEqual([0, { at: 'fold', step: 1 }]);
    expect(at([next, next, back, back])).toEqual([0, { at: 'fetch' }]);
    expect(at([next, next, next, next, next, back])).toEqual([1, { at: 'fetch' }]);
    expect(walk([back], walking).effects).toEqual([{ type: 'end-batch' }]);
    expect(at([back])).toBe('off');
  });

  it('loses an order that is set aside or was changed, with all its pieces, and goes on with the others', () => {
    const aside = walk([say('item-missing'), say('confirm')], walking);
    expect(aside.effects).toEqual([{ type: 'set-aside', order: '1', reason: 'missing' }]);
    expect(aside.state.screen).toMatchObject({ at: 'walk', piece: 0, step: { at: 'fetch' } });
    const placed = walk([{ type: 'aside-placed', order: '1', place: 3 }], aside.state);
    expect(placed.state.notice).toMatchObject({ code: 'set-aside-done', values: { order: '1', place: '3' } });
    const changed = walk([{ type: 'left-batch', orders: ['1', '9'] }], walking);
    expect(changed.state.notice).toMatchObject({ code: 'left-batch', values: { order: '1', basket: '1' } });
    expect(changed.effects).toEqual([]);
    const both = walk([{ type: 'left-batch', orders: ['1', '2'] }], walking);
    expect([both.screen.at, both.effects]).toEqual(['folded', [{ type: 'end-batch' }]]);
  });

  it('is ended on purpose only, and shows what is folded by then', () => {
    const asked = walk([scan('C'), say('next'), scan('C'), say('next'), say('release')], walking);
    expect(asked.state.confirming?.command).toBe('release');
    expect(sideCommands(asked.state)[0]).toBe('confirm');
    expect(walk([say('cancel')], asked.state).screen.at).toBe('walk');
    const ended = sideWork(asked.state, say('confirm'), { ...FACTS, now: FACTS.now + 60_000 });
    expect(ended.state.screen).toMatchObject({ at: 'folded', baskets: [{ order: '2', basket: 4 }] });
    expect(ended.effects).toEqual([{ type: 'end-batch' }]);
  });

  it('that cannot be prepared says so and leaves the bench free', () => {
    const { state } = walk([begin, choose('box'), { type: 'cannot-prepare' }]);
    expect([state.screen.at, state.notice?.code]).toEqual(['off', 'no-batch']);
  });
});

it('the set-aside shelf is listed, and an order of it is taken up by touch, by mark or by its code', () => {
  const list: SideInput = { type: 'look-at-aside', choices: ASIDE, person: null, language: null };
  const taken = [{ type: 'take-order', order: '8' }];
  expect(walk([list, choose('8')]).effects).toEqual(taken);
  expect(walk([list, say('next'), say('next'), say('confirm')]).effects).toEqual(taken);
  const code: SideInput = { type: 'scan', by: 'scan', meaning: { means: 'order', text: 'BFO-8', order: '8' } };
  expect(walk([list, code])).toMatchObject({ effects: taken, screen: { at: 'off' } });
  expect(walk([list, say('print-list')]).effects).toEqual([{ type: 'print-list' }]);
});

const anyInput: fc.Arbitrary<SideInput> = fc.oneof(
  { weight: 5, arbitrary: fc.constant(say('next')) },
  { weight: 5, arbitrary: fc.constantFrom(...COMMANDS).map(say) },
  { weight: 4, arbitrary: fc.constantFrom('A', 'B', 'C', 'Z').map(scan) },
  {
    weight: 1,
    arbitrary: fc.constantFrom('1', '2', '9').map((order) => ({ type: 'left-batch' as const, orders: [order] })),
  },
  { weight: 1, arbitrary: fc.constantFrom(begin, choose('pouch-a'), prepared, { type: 'cannot-prepare' } as const) },
);

describe('whatever comes in', () => {
  it('an order is said to be folded once at most, and only when all its pieces lie in its basket', () => {
    fc.assert(
      fc.property(fc.array(anyInput, { maxLength: 80 }), (inputs) => {
        let state = walking;
        let folded: string[] = [];
        inputs.forEach((input, index) => {
          const before = state;
          const done = sideWork(before, input, { ...FACTS, now: FACTS.now + index * 1000 });
          ({ state } = done);
          if (input.type === 'prepared' && done.accepted) folded = [];
          for (const effect of done.effects) {
            if (effect.type !== 'order-folded') continue;
            expect(folded).not.toContain(effect.order);
            folded.push(effect.order);
            const { screen } = before;
            const left = screen.at === 'walk' ? screen.pieces.slice(screen.piece + 1) : [];
            expect(left.map(({ order }) => order)).not.toContain(effect.order);
          }
          // A batch that is over holds nothing any more.
          if (before.screen.at === 'walk' && state.screen.at !== 'walk') {
            expect(done.effects.at(-1)).toEqual({ type: 'end-batch' });
          }
        });
      }),
    );
  });

  it('the state survives being written down, offers just what it takes, and never shows a piece that is not there', () => {
    fc.assert(
      fc.property(fc.array(anyInput, { maxLength: 60 }), (inputs) => {
        let state = walking;
        inputs.forEach((input, index) => {
          const facts = { ...FACTS, now: FACTS.now + index * 1000 };
          const done = sideWork(state, input, facts);
          const revived = JSON.parse(JSON.stringify(state)) as SideState;
          expect(sideWork(revived, input, facts)).toEqual(done);
          if (input.type === 'command' && !sideCommands(state).includes(input.command)) {
            expect(done.accepted).toBe(false);
          }
          ({ state } = done);
          const { screen } = state;
          if (screen.at === 'walk') expect(screen.pieces[screen.piece]).toBeDefined();
        });
      }),
    );
  });
});
