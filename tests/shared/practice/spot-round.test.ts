import { describe, expect, it } from 'vitest';
import { gs1Holds } from '#shared/codes/check-digits.ts';
import { PROBLEMS, type Problem } from '#shared/people/rules.ts';
import { pick, seeded, shuffled } from '#shared/practice/seeded.ts';
import { problemsIn, spotRound } from '#shared/practice/spot-round.ts';
import type { Scene } from '#shared/practice/types.ts';
import { addMass, massFromBase, massFromGrams } from '#shared/units/mass.ts';
import { FACTS, ounces } from '#tests/support/run-fixtures.ts';

const words = (text: string) => ({ en: text, es: text });
const kinds = ['Shirt', 'Coat', 'Hat', 'Belt'].map(words);
const { weigh } = FACTS;
const CEILING = ounces('16');
const make = (seed: number, problems: readonly Problem[] = PROBLEMS) =>
  spotRound(seed, problems, { kinds, weigh, ceiling: CEILING });
const seeds = Array.from({ length: 300 }, (_, seed) => seed);
const only = (problem: Problem): readonly Scene[] =>
  seeds.map((seed) => make(seed, [problem])).flatMap((each) => (each.problem === problem ? [each.scene] : []));
const sound = (): readonly Scene[] => seeds.map((seed) => make(seed, []).scene);

describe('a row that a seed decides', () => {
  /** Mulberry32 by Tommy Ettinger (public domain), from its C code as remembered, in whole numbers without a limit. */
  function reference(seed: number, count: number): number[] {
    const cut = (value: bigint) => BigInt.asUintN(32, value);
    let state = BigInt(seed);
    return Array.from({ length: count }, () => {
      state = cut(state + 0x6d2b79f5n);
      let mixed = cut((state ^ (state >> 15n)) * (state | 1n));
      mixed ^= cut(mixed + cut((mixed ^ (mixed >> 7n)) * (mixed | 61n)));
      return Number(cut(mixed ^ (mixed >> 14n))) / 2 ** 32;
    });
  }

  it('is the one of that name', () => {
    for (const seed of [0, 1, 42, 2 ** 31, 2 ** 32 - 1]) {
      const next = seeded(seed);
      expect(Array.from({ length: 50 }, () => next())).toEqual(reference(seed, 50));
    }
  });

  it('picks and shuffles without a favourite, and loses nothing', () => {
    const next = seeded(7);
    const picked = Array.from({ length: 3000 }, () => pick(['a', 'b', 'c'], next));
    for (const each of ['a', 'b', 'c']) {
      const share = picked.filter((one) => one === each).length / 3000;
      // Four standard deviations of a fair third.
      expect(Math.abs(share - 1 / 3)).toBeLessThan(0.035);
    }
    expect(pick<string>([], next)).toBeUndefined();
    const first = { a: 0, b: 0, c: 0 };
    for (let count = 0; count < 3000; count++) {
      const order = shuffled(['a', 'b', 'c'] as const, next);
      expect(order.toSorted()).toEqual(['a', 'b', 'c']);
      first[order[0]!]++;
    }
    for (const count of Object.values(first)) expect(Math.abs(count / 3000 - 1 / 3)).toBeLessThan(0.035);
  });
});

describe('a bench with nothing wrong', () => {
  it('holds an order of two pieces, one of them in hand, and its own label', () => {
    for (const { order, inHand, label } of sound()) {
      expect(order.id).toMatch(/^P-[1-9]\d\d$/);
      const number = Number(order.id.slice(2));
      expect(order.pieces.map(({ sku }) => sku)).toEqual([
        `PRACTICE-${String(number)}`,
        `PRACTICE-${String(number + 1)}`,
      ]);
      for (const { name } of order.pieces) expect(kinds).toContainEqual(name);
      expect(order.pieces).toContainEqual(inHand);
      expect(label.postcode).toBe(order.postcode);
      expect(order.postcode).toMatch(/^[1-9]\d{4}$/);
      // A parcel number of 22 digits with its check digit (GS1 General Specifications, 7.9).
      expect(label.number).toMatch(/^9200\d{18}$/);
      expect(gs1Holds(label.number)).toBe(true);
    }
    expect(new Set(sound().map(({ inHand, order }) => inHand.sku === order.pieces[0]?.sku)).size).toBe(2);
    expect(new Set(sound().map(({ label }) => label.number)).size).toBe(seeds.length);
    expect(new Set(sound().map(({ order }) => order.postcode)).size).toBeGreaterThan(seeds.length * 0.95);
  });

  it('has a scale at zero and a reading that it can show, a good way below the ceiling', () => {
    for (const { scale } of sound()) {
      expect([scale.emptyPan, scale.ceiling]).toEqual([0, CEILING]);
      expect(scale.reading % weigh.division).toBe(0);
      const below = 1 - scale.reading / CEILING;
      expect(below).toBeGreaterThan(0.14);
      expect(below).toBeLessThan(0.41);
      // The label and the tape come on top: 3 g, half a gram either way.
      expect(scale.verdict).toMatchObject({ verdict: 'clear', total: addMass(scale.reading, massFromGrams(3)) });
      expect(scale.verdict.components).toContainEqual(
        expect.objectContaining({ of: 'to-come', halfWidth: massFromGrams(0.5) }),
      );
    }
    const belows = sound().map(({ scale }) => 1 - scale.reading / CEILING);
    expect(Math.min(...belows)).toBeLessThan(0.17);
    expect(Math.max(...belows)).toBeGreaterThan(0.38);
  });

  it('has pockets with nothing in them that must not be mailed', () => {
    const pockets = sound().map(({ pocket }) => pocket);
    expect([...new Set(pockets)].sort()).toEqual(['button', 'empty', 'tissue']);
    expect(pockets.filter((pocket) => pocket === 'empty').length / pockets.length).toBeGreaterThan(0.4);
  });
});

describe('a bench with one thing wrong', () => {
  it('the piece: one of no order, of another kind', () => {
    for (const { order, inHand } of only('wrong-piece')) {
      expect(order.pieces.map(({ sku }) => sku)).not.toContain(inHand.sku);
      expect(order.pieces.map(({ name }) => name)).not.toContainEqual(inHand.name);
      expect(inHand.sku).toMatch(/^PRACTICE-\d+$/);
    }
  });

  it('the label: another postcode', () => {
    for (const { order, label } of only('wrong-label')) {
      expect(label.postcode).toMatch(/^[1-9]\d{4}$/);
      expect(label.postcode).not.toBe(order.postcode);
    }
  });

  it('the weight: the ceiling lies within its margin of error', () => {
    for (const { scale } of only('too-close')) {
      expect(scale.verdict.verdict).not.toBe('clear');
      expect(Math.abs(scale.verdict.margin)).toBeLessThanOrEqual(scale.verdict.uncertainty);
    }
  });

  it('the zero: two to four divisions off, in the reading too', () => {
    const off = new Set<number>();
    for (const { scale } of only('zero-drifted')) {
      off.add(scale.emptyPan / weigh.division);
      expect(scale.reading / CEILING).toBeGreaterThan(0.59);
      expect(scale.verdict.verdict).toBe('clear');
    }
    expect([...off].sort()).toEqual([2, 3, 4]);
  });

  it('the pocket: a cell of some kind', () => {
    expect([...new Set(only('pocket-cell').map(({ pocket }) => pocket))].sort()).toEqual([
      'hearing-aid-cell',
      'power-bank',
      'vape',
    ]);
  });

  it('comes as often as nothing does', () => {
    const wrong = seeds.filter((seed) => make(seed, ['wrong-label']).problem !== null).length / seeds.length;
    expect(Math.abs(wrong - 0.5)).toBeLessThan(0.12);
  });
});

it('a scale that shows nothing lighter than one division shows one', () => {
  const coarse = { ...weigh, division: ounces('100') };
  expect(spotRound(1, [], { kinds, weigh: coarse, ceiling: CEILING }).scene.scale.reading).toBe(ounces('100'));
});

it('everything that is wrong is found, also several at once', () => {
  const [right] = sound() as [Scene];
  const wrong: Scene = {
    ...right,
    inHand: { sku: 'Q', name: words('Q') },
    pocket: 'vape',
    label: { ...right.label, postcode: 'x' },
    scale: {
      ...right.scale,
      emptyPan: massFromBase(0 - weigh.division),
      verdict: { ...right.scale.verdict, verdict: 'over' },
    },
  };
  expect(problemsIn(wrong, weigh)).toEqual(['wrong-piece', 'wrong-label', 'too-close', 'zero-drifted', 'pocket-cell']);
  const almost = { ...right, scale: { ...right.scale, emptyPan: massFromBase(weigh.division - 1) } };
  expect(problemsIn(almost, weigh)).toEqual([]);
});
