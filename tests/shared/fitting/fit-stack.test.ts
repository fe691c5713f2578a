import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFitError } from '#shared/fitting/fit-error.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import { CONTAINER_TYPES } from '#shared/fitting/types.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { NO_WRAP, aBlock, aContainer } from '#tests/support/demo-wardrobe.ts';
import { runs } from '#tests/support/runs.ts';

const side = fc.double({ min: 50, max: 400, noNaN: true });
const thin = fc.double({ min: 3, max: 60, noNaN: true });
const softBlock = fc
  .record({ width: side, length: side, thickness: thin, press: fc.double({ min: 0.5, max: 1, noNaN: true }) })
  .map(({ width, length, thickness, press }) =>
    aBlock([width, length, thickness], {
      pressedThickness: thickness * press,
      thicknessSd: thickness * 0.1,
      soft: true,
      mayPress: true,
    }),
  );
const RANK = { no: 0, snug: 1, easy: 2 } as const;

describe('fitStack', () => {
  it('never fits worse in a container that is larger in one direction', () => {
    fc.assert(
      fc.property(
        fc.array(softBlock, { minLength: 1, maxLength: 4 }),
        fc.constantFrom(...CONTAINER_TYPES),
        fc.tuple(side, side, side),
        fc.nat({ max: 2 }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (blocks, type, sides, which, more) => {
          const size = (add: number): [number, number, number?] => {
            const [width, length, depth] = sides.map((each, index) => (index === which ? each + add : each));
            return type === 'carton' ? [width!, length!, depth!] : [width!, length!];
          };
          const small = fitStack(blocks, aContainer(type, size(0)), NO_WRAP);
          const large = fitStack(blocks, aContainer(type, size(more)), NO_WRAP);
          expect(RANK[large.verdict]).toBeGreaterThanOrEqual(RANK[small.verdict]);
        },
      ),
      { numRuns: runs(500) },
    );
  });

  it('never closes more surely, nor better, when a piece grows in any measure', () => {
    const rigidBlock = fc
      .tuple(side, side, thin)
      .map(([width, length, thickness]) => aBlock([width / 2, length / 2, thickness], { thicknessSd: thickness / 25 }));
    fc.assert(
      fc.property(
        fc.array(fc.oneof(softBlock, rigidBlock), { minLength: 1, maxLength: 4 }),
        fc.constantFrom(...CONTAINER_TYPES),
        fc.tuple(side, side, side),
        fc.constantFrom('width', 'length', 'thickness', 'thicknessSd'),
        fc.double({ min: 1, max: 1.3, noNaN: true }),
        (blocks, type, [width, length, depth], measure, by) => {
          const container = aContainer(type, type === 'carton' ? [width, length, depth] : [width, length]);
          const [first, ...rest] = blocks;
          const thicker = measure === 'thickness' ? { pressedThickness: first!.pressedThickness * by } : {};
          const grown = { ...first!, [measure]: first![measure] * by, ...thicker };
          const before = fitStack(blocks, container, NO_WRAP);
          const after = fitStack([grown, ...rest], container, NO_WRAP);
          expect(RANK[after.verdict]).toBeLessThanOrEqual(RANK[before.verdict]);
          if (after.verdict !== 'no') expect(after.probability).toBeLessThanOrEqual(before.probability + 1e-12);
        },
      ),
      { numRuns: runs(1500) },
    );
  });

  it('never fits better with one more piece', () => {
    fc.assert(
      fc.property(
        fc.array(softBlock, { minLength: 1, maxLength: 4 }),
        softBlock,
        fc.constantFrom(...CONTAINER_TYPES),
        fc.tuple(side, side, side),
        (blocks, more, type, [width, length, depth]) => {
          const container = aContainer(type, type === 'carton' ? [width, length, depth] : [width, length]);
          const few = fitStack(blocks, container, NO_WRAP);
          const many = fitStack([...blocks, more], container, NO_WRAP);
          expect(RANK[many.verdict]).toBeLessThanOrEqual(RANK[few.verdict]);
        },
      ),
      { numRuns: runs(500) },
    );
  });

  it('says easy only with nothing negative, and no with the direction that fails', () => {
    fc.assert(
      fc.property(softBlock, fc.constantFrom(...CONTAINER_TYPES), fc.tuple(side, side, side), (block, type, sides) => {
        const container = aContainer(type, type === 'carton' ? sides : [sides[0], sides[1]]);
        const { verdict, slack, probability, limit } = fitStack([block], container, NO_WRAP);
        const least = Math.min(slack.width, slack.length, slack.thickness);
        expect(least >= 0).toBe(verdict !== 'no');
        expect(probability).toBeGreaterThanOrEqual(0);
        expect(probability).toBeLessThanOrEqual(1);
        if (verdict !== 'no') expect(probability).toBeGreaterThanOrEqual(0.499);
        else expect(probability).toBeLessThan(0.501);
        if (limit === 'width') expect(slack.width).toBeLessThanOrEqual(slack.length);
        if (limit === 'length') expect(slack.length).toBeLessThanOrEqual(slack.width);
      }),
      { numRuns: runs(500) },
    );
  });

  it('is snug when only the pressed stack closes, and no when it must not be pressed', () => {
    const carton = aContainer('carton', [200, 300, 50]);
    const block = aBlock([180, 280, 60], { pressedThickness: 45, thicknessSd: 2, soft: true, mayPress: true });
    const snug = fitStack([block], carton, NO_WRAP);
    expect(snug).toMatchObject({ verdict: 'snug', limit: 'thickness' });
    expect(snug.slack.thickness).toBeCloseTo(5, 9);
    const refused = fitStack([{ ...block, mayPress: false }], carton, NO_WRAP);
    expect(refused).toMatchObject({ verdict: 'no', limit: 'must-not-press' });
    expect(refused.probability).toBeLessThan(0.01);
  });

  it('gives half a chance to a stack that just closes, and more with less spread', () => {
    const exact = (thickness: number, thicknessSd: number) =>
      fitStack([aBlock([150, 250, thickness], { thicknessSd })], aContainer('carton', [200, 300, 50]), NO_WRAP);
    expect(exact(50, 3).probability).toBeCloseTo(0.5, 6);
    expect(exact(47, 3).probability).toBeCloseTo(0.8413, 3);
    expect(exact(47, 1.5).probability).toBeCloseTo(0.9772, 3);
    expect(exact(51, 0).probability).toBe(0);
    expect(exact(49, 0).probability).toBe(1);
  });

  it('is stopped by the cap of a card before its shape', () => {
    const card = aContainer('card', [254, 330], { thicknessCap: lengthFromMillimetres(10) });
    expect(fitStack([aBlock([200, 300, 9])], card, NO_WRAP)).toMatchObject({ verdict: 'easy', limit: 'thickness-cap' });
    expect(fitStack([aBlock([200, 300, 11])], card, NO_WRAP)).toMatchObject({ verdict: 'no', limit: 'thickness-cap' });
    expect(fitStack([aBlock([240, 300, 9])], card, NO_WRAP)).toMatchObject({ verdict: 'no', limit: 'thickness' });
  });

  it('counts the wrap of every piece', () => {
    const wrap = { ...NO_WRAP, thickness: 2 };
    const carton = aContainer('carton', [200, 300, 50]);
    expect(fitStack([aBlock([180, 280, 24]), aBlock([180, 280, 24])], carton, wrap).slack.thickness).toBeCloseTo(-2, 9);
  });

  it('tells what a carrier will measure: a filled pouch is narrower than flat and thicker by its padding', () => {
    const pouch = aContainer('pouch', [254, 330], { wall: lengthFromMillimetres(3) });
    const { filled } = fitStack([aBlock([200, 280, 40])], pouch, NO_WRAP);
    expect(filled.width).toBeCloseTo(214, 9);
    expect(filled.length).toBeCloseTo(290, 9);
    expect(filled.thickness).toBeCloseTo(46, 9);
    const outside = {
      width: lengthFromMillimetres(206),
      length: lengthFromMillimetres(306),
      depth: lengthFromMillimetres(112),
    };
    const carton = aContainer('carton', [200, 300, 100], { outside });
    expect(fitStack([aBlock([180, 280, 24])], carton, NO_WRAP).filled).toEqual({
      width: 206,
      length: 306,
      thickness: 112,
    });
  });

  it('stands a shoe box on its end where it goes in no other way', () => {
    const carton = aContainer('carton', [120, 220, 340]);
    const fit = fitStack([aBlock([210, 330, 115])], carton, NO_WRAP);
    expect(fit.verdict).toBe('easy');
    expect(fit.slack.thickness).toBeCloseTo(10, 6);
    expect(fit.slack.width).toBeCloseTo(5, 6);
  });

  it('lays soft pieces in two piles where one is too high', () => {
    const carton = aContainer('carton', [230, 330, 60]);
    const soft = { soft: true, mayPress: true, thicknessSd: 1 } as const;
    const blocks = [aBlock([160, 220, 40], soft), aBlock([160, 220, 40], soft)];
    expect(fitStack(blocks, carton, NO_WRAP)).toMatchObject({ verdict: 'easy', piles: 2 });
    expect(fitStack([...blocks, aBlock([160, 220, 40], soft)], carton, NO_WRAP).verdict).toBe('no');
  });

  it('shares soft pieces out so that the higher pile is lowest', () => {
    const carton = aContainer('carton', [210, 320, 51]);
    const soft = (thickness: number) => aBlock([150, 200, thickness], { soft: true, mayPress: false });
    // 30 + 20 beside 25 + 25: no other way stays under 51
    const fit = fitStack([soft(30), soft(25), soft(25), soft(20)], carton, NO_WRAP);
    expect(fit).toMatchObject({ verdict: 'easy', piles: 2 });
    expect(fit.slack.thickness).toBeCloseTo(1, 9);
  });

  it('packs shoes, a belt and a folded shirt together', () => {
    const carton = aContainer('carton', [305, 356, 152]);
    const shirt = aBlock([183, 262, 18], { soft: true, mayPress: true, thicknessSd: 2, pressedThickness: 15 });
    const fit = fitStack([aBlock([210, 300, 110]), aBlock([130, 120, 40]), shirt], carton, NO_WRAP);
    expect(fit.verdict).toBe('easy');
  });

  it.each([
    ['nothing-to-pack', []],
    ['bad-measure', [aBlock([0, 200, 10])]],
    ['bad-measure', [aBlock([100, -200, 10])]],
    ['bad-measure', [aBlock([100, 200, Number.NaN])]],
  ] as const)('refuses %s', (code, blocks) => {
    try {
      fitStack(blocks, aContainer('pouch', [254, 330]), NO_WRAP);
      expect.unreachable();
    } catch (error) {
      expect(isFitError(error, code)).toBe(true);
    }
  });
});
