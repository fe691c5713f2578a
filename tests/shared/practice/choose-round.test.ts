import { expect, it } from 'vitest';
import type { Kind } from '#shared/garments/types.ts';
import { chooseRound } from '#shared/practice/choose-round.ts';
import type { ContainerFitView, FitsView } from '#shared/wire/fits.ts';

const words = (text: string) => ({ en: text, es: text });
const SHIRT = { id: 'shirt', name: words('Shirt') } as Kind;

/** @param total null: it does not go in */
function container(id: string, total: number | null, change: Partial<ContainerFitView> = {}): ContainerFitView {
  const cost = total === null ? null : { currency: 'USD', postage: 0, materials: 0, labour: 0, risk: 0, total };
  return {
    id,
    name: words(id),
    type: 'pouch',
    fit: { verdict: total === null ? 'no' : 'easy' },
    stack: { across: 300, along: 200, thickness: 25 },
    cost,
    isChosen: false,
    why: words(`why ${id}`),
    ...change,
  } as ContainerFitView;
}
const CHOSEN = container('chosen', 700, { isChosen: true, why: words('the cheapest') });
const fitsOf = (containers: readonly ContainerFitView[], pieces: readonly unknown[] = [{ grams: 210 }]): FitsView =>
  ({ containers, pieces }) as FitsView;
const ask = (containers: readonly ContainerFitView[], seed = 1) => chooseRound(seed, SHIRT, 'M', fitsOf(containers));
const seeds = Array.from({ length: 40 }, (_, seed) => seed);

it('shows the piece as it is folded, the longer side as its length', () => {
  expect(ask([CHOSEN, container('other', 800)])).toMatchObject({
    exercise: 'choose',
    kind: 'shirt',
    kindName: words('Shirt'),
    size: 'M',
    block: { width: 200, length: 300, thickness: 25 },
    grams: 210,
  });
});

it('offers the plan’s own with its reasons, and each other one with the plan’s reason against it', () => {
  const options = ask([CHOSEN, container('dear', 800), container('tight', null, { type: 'carton' })])!.options;
  expect(options.toSorted((a, b) => a.container.localeCompare(b.container))).toEqual([
    { container: 'chosen', name: words('chosen'), type: 'pouch', fit: 'easy', right: true, why: words('the cheapest') },
    { container: 'dear', name: words('dear'), type: 'pouch', fit: 'easy', right: false, why: words('why dear') },
    { container: 'tight', name: words('tight'), type: 'carton', fit: 'no', right: false, why: words('why tight') },
  ]);
});

it('calls what is as cheap to half a cent right too', () => {
  const right = (total: number) =>
    ask([CHOSEN, container('other', total)])!.options.find(({ container: id }) => id === 'other')?.right;
  expect([right(700.5), right(700.51), right(699)]).toEqual([true, false, true]);
});

it('offers four at most: two that take it, the rest too tight', () => {
  const many = [
    CHOSEN,
    ...['a', 'b', 'c'].map((id) => container(id, 800)),
    ...['x', 'y', 'z'].map((id) => container(id, null)),
  ];
  const seen = new Set<string>();
  const orders = new Set<string>();
  for (const seed of seeds) {
    const ids = ask(many, seed)!.options.map(({ container: id }) => id);
    expect([ids.length, ids.filter((id) => 'abc'.includes(id)).length, ids.includes('chosen')]).toEqual([4, 2, true]);
    ids.forEach((id) => seen.add(id));
    orders.add(ids.indexOf('chosen').toString());
    expect(ask(many, seed)!.options.map(({ container: id }) => id)).toEqual(ids);
  }
  // Every one comes up, and the answer stands at every place.
  expect([...seen].sort()).toEqual(['a', 'b', 'c', 'chosen', 'x', 'y', 'z']);
  expect(orders.size).toBe(4);
  const loose = [CHOSEN, container('a', 800), ...['x', 'y', 'z'].map((id) => container(id, null))];
  expect(ask(loose)!.options).toHaveLength(4);
  const fitting = [CHOSEN, ...['a', 'b', 'c'].map((id) => container(id, 800))];
  expect(ask(fitting)!.options).toHaveLength(3);
});

it('is none where one container alone is the answer or nothing can be said against the others', () => {
  expect(ask([CHOSEN])).toBeNull();
  expect(ask([CHOSEN, container('silent', 800, { why: words('') })])).toBeNull();
  expect(ask([container('other', 800)])).toBeNull();
  expect(ask([{ ...CHOSEN, cost: null }, container('other', 800)])).toBeNull();
  expect(chooseRound(1, SHIRT, null, fitsOf([CHOSEN, container('other', 800)], []))).toBeNull();
  expect(chooseRound(1, SHIRT, null, fitsOf([CHOSEN, container('other', 800)]))?.size).toBeNull();
});
