import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { invent } from '#server/practice/invented.ts';
import { plannerHere } from '#server/planning/planner.ts';
import { PROBLEMS, peopleRules } from '#shared/people/rules.ts';
import { problemsIn, spotRound } from '#shared/practice/spot-round.ts';
import type { ChooseRound } from '#shared/practice/types.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { FACTS, ounces } from '#tests/support/run-fixtures.ts';

const shop = loadShop('config');
const kinds = [...shop.wardrobe.kinds.values()].map((kind) => kind.name);
const { weigh } = FACTS;

describe('what is wrong here', () => {
  it('is exactly what the station itself would find, one thing or nothing', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 31 - 1 }), fc.subarray([...PROBLEMS]), (seed, problems) => {
        const { scene, problem } = spotRound(seed, problems, { kinds, weigh, ceiling: ounces('16') });
        expect(problemsIn(scene, weigh)).toEqual(problem === null ? [] : [problem]);
        if (problem !== null) expect(problems).toContain(problem);
      }),
      { numRuns: 400 },
    );
  });

  it('everything that may be wrong comes up, and nothing wrong too', () => {
    const seen = new Set<string | null>();
    for (let seed = 0; seed < 60; seed++) {
      seen.add(spotRound(seed, PROBLEMS, { kinds, weigh, ceiling: ounces('16') }).problem);
    }
    expect(seen).toEqual(new Set([...PROBLEMS, null]));
  });
});

describe('choose the container', () => {
  const now = Date.parse('2026-11-25T15:00:00Z');
  const parts = { shop, planner: plannerHere(shop), weigh, language: 'en' as const, now };
  let rounds: readonly ChooseRound[];

  beforeAll(async () => {
    const [skill] = peopleRules(shop).skills;
    const made: ChooseRound[] = [];
    for (let count = 0; count < 6; count++) {
      const round = await invent(skill!, 'choose', parts);
      if (round?.what === 'round' && round.round.exercise === 'choose') made.push(round.round);
    }
    rounds = made;
  });

  it('offers several, of which the plan’s own is right, each with the planner’s reason', () => {
    expect(rounds).toHaveLength(6);
    for (const { kind, size, options } of rounds) {
      expect(options.length).toBeGreaterThan(1);
      expect(new Set(options.map(({ container }) => container)).size).toBe(options.length);
      for (const option of options) expect(option.why.en).toMatch(/\S/);
      const piece = { sku: 'x', title: 'x', kind, ...(size === null ? {} : { size }) };
      const order = {
        id: 'x',
        pieces: [{ sku: 'x', count: 1 }],
        buyer: '',
        address: [],
        to: shop.from,
        shipBy: new Date(now).toISOString(),
      };
      const plan = planOrder({ order, pieces: new Map([['x', piece]]), shop, day: '2026-11-25' });
      const right = options.filter((option) => option.right).map(({ container }) => container);
      expect(right).toContain(plan.parcels[0]?.container.id);
      for (const { fit, right } of options) if (fit === 'no') expect(right).toBe(false);
    }
  });

  it('of a skill about suits asks about suits', async () => {
    const suits = peopleRules(shop).skills.find(({ id }) => id === 'suits')!;
    const made = await invent(suits, 'guided', parts);
    const asked =
      made?.what === 'order' ? made.plan.parcels.flatMap(({ pieces }) => pieces.map(({ piece }) => piece.kind)) : [];
    expect(asked.length).toBeGreaterThan(0);
    for (const kind of asked) expect(suits.kinds).toContain(kind);
  });
});
