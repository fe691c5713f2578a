import { describe, expect, it } from 'vitest';
import { greatestInCard } from '#shared/fitting/card.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { NO_WRAP, aBlock, aContainer } from '#tests/support/demo-wardrobe.ts';

const soft = { soft: true, mayPress: true } as const;

// Margins in mm and deviations by hand; probabilities are those of the normal table.
describe('a card', () => {
  const card = aContainer('card', [254, 330], {
    closing: lengthFromMillimetres(20),
    wall: lengthFromMillimetres(1),
  });

  it('has the room beside a block, its closing taken off the length, and what its arcs leave above it', () => {
    // 25.5 mm beside 200 in 254 (two arcs, as in the published values)
    const fit = fitStack([aBlock([200, 300, 9])], card, NO_WRAP);
    expect(fit.slack.width).toBeCloseTo(54, 9);
    expect(fit.slack.length).toBeCloseTo(10, 9);
    expect(fit.slack.thickness).toBeCloseTo(16.5, 1);
    expect(fit).toMatchObject({ verdict: 'easy', limit: 'length' });
    expect(fit.filled).toEqual({ width: 254, length: 330, thickness: 11 });
  });

  it('is limited by its shape where its cap lies higher, and by its length where that is least', () => {
    expect(fitStack([aBlock([200, 260, 22])], card, NO_WRAP).limit).toBe('thickness');
    expect(fitStack([aBlock([200, 309, 9])], card, NO_WRAP).limit).toBe('length');
  });

  it('is less sure for folds that may be wider: 0.6 of 4 mm beside the spread of the thickness', () => {
    const least = Math.hypot(1, 0.6 * 4);
    const block = (less: number, length = 200) =>
      aBlock([200, length, greatestInCard(254, 200) - less], { ...soft, thicknessSd: 1 });
    expect(fitStack([block(least)], card, NO_WRAP).probability).toBeCloseTo(0.8413, 3);
    expect(fitStack([block(2 * least)], card, NO_WRAP).probability).toBeCloseTo(0.9772, 3);
    // 310 - 306 is one deviation of a fold's side
    expect(fitStack([block(20, 306)], card, NO_WRAP).probability).toBeCloseTo(0.8413, 3);
  });

  it('with a cap depends on the thickness alone', () => {
    const capped = aContainer('card', [254, 330], { thicknessCap: lengthFromMillimetres(10) });
    const fit = fitStack([aBlock([200, 280, 8], { ...soft, thicknessSd: 2 })], capped, NO_WRAP);
    expect(fit.probability).toBeCloseTo(0.8413, 4);
    expect(fit.slack.thickness).toBeCloseTo(2, 9);
  });
});

describe('a carton', () => {
  const carton = aContainer('carton', [200, 300, 50]);

  it.each([
    [[195, 250, 20], 'width', { width: 5, length: 50, thickness: 30 }],
    [[150, 296, 20], 'length', { width: 50, length: 4, thickness: 30 }],
    [[150, 250, 47], 'thickness', { width: 50, length: 50, thickness: 3 }],
    [[150, 296, 44], 'length', { width: 50, length: 4, thickness: 6 }],
    [[196, 250, 44], 'width', { width: 4, length: 50, thickness: 6 }],
  ] as const)('around %j is tightest in the %s', (sides, limit, slack) => {
    expect(fitStack([aBlock(sides)], carton, NO_WRAP)).toMatchObject({ limit, slack });
  });

  it('is measured outside as it was bought, or as it is inside where nobody measured its depth', () => {
    const { width, length } = carton.outside;
    const bought = { ...carton, outside: { width, length } };
    expect(fitStack([aBlock([150, 250, 20])], bought, NO_WRAP).filled).toEqual({
      width: 200,
      length: 300,
      thickness: 50,
    });
  });
});

describe('a pouch', () => {
  it('has as much thickness left as the tighter direction allows, and is as thick as what closes in it', () => {
    const fold = (sides: readonly [number, number, number], pressedThickness: number) =>
      aBlock(sides, { ...soft, pressedThickness });
    // along 330 - 280 - 40 = 10; across 254 - 200 - 22.83 = 31.17, which is 54.6 mm of a soft stack
    const easy = fitStack([fold([200, 280, 40], 30)], aContainer('pouch', [254, 330]), NO_WRAP);
    expect(easy.slack.thickness).toBeCloseTo(10, 9);
    expect(easy).toMatchObject({ verdict: 'easy', filled: { thickness: 40 } });
    // across 229 - 200 - 22.832 = 6.168, which is 10.806 mm
    const wide = fitStack([fold([200, 280, 40], 30)], aContainer('pouch', [229, 400]), NO_WRAP);
    expect(wide.slack.thickness).toBeCloseTo(10.806, 3);
    // 330 - 300 - 40 lacks 10, pressed to 20 leaves as much
    const snug = fitStack([fold([230, 300, 40], 20)], aContainer('pouch', [254, 330]), NO_WRAP);
    expect(snug).toMatchObject({ verdict: 'snug', filled: { thickness: 20 } });
    expect(snug.slack.length).toBeCloseTo(10, 9);
    // exactly closed is closed
    const exact = fitStack([fold([230, 300, 40], 30)], aContainer('pouch', [254, 330]), NO_WRAP);
    expect(exact).toMatchObject({ verdict: 'snug', slack: { length: 0 } });
    // pressed it goes in turned: 250 + 30 into 290, where 300 + 30 does not go
    const turned = fitStack([fold([250, 300, 60], 30)], aContainer('pouch', [330, 290]), NO_WRAP);
    expect(turned).toMatchObject({ verdict: 'snug', turned: true });
  });

  it('is as sure as the tighter of its two directions', () => {
    // rigid: 254 - 200 - 40 = 14 with a spread of 7, two deviations; 330 - 280 - 40 = 10 of 7
    const rigid = fitStack([aBlock([200, 280, 40], { thicknessSd: 7 })], aContainer('pouch', [254, 330]), NO_WRAP);
    expect(rigid.probability).toBeCloseTo(0.9234, 3);
    // soft: sides of 4 mm and, across, 0.5708 of the thickness: 254 - 200 - 22.83 = 31.17; along 330 - 280 - 40 = 10 of 5
    const fold = aBlock([200, 280, 40], { ...soft, thicknessSd: 3 });
    expect(fitStack([fold], aContainer('pouch', [254, 330]), NO_WRAP).probability).toBeCloseTo(0.9772, 3);
    // across 228.832 - 200 - 22.832 = 6, with a spread of the root of 16 + (0.5708 x 3)^2 = 4.352
    const narrow = aContainer('pouch', [228.832, 400]);
    expect(fitStack([fold], narrow, NO_WRAP).probability).toBeCloseTo(0.916, 3);
  });

  it('holds a soft stack with its long side along, narrower than it lies flat, or turned where that is wider', () => {
    const pouch = aContainer('pouch', [254, 330], { wall: lengthFromMillimetres(2) });
    const fold = aBlock([240, 200, 10], soft);
    const { turned, filled } = fitStack([fold], pouch, NO_WRAP);
    expect(turned).toBe(false);
    // 254 - 5.708 across is more than 200 and its walls; 330 - 5.708 along
    expect(filled.width).toBeCloseTo(248.292, 3);
    expect(filled.length).toBeCloseTo(324.292, 3);
    expect(filled.thickness).toBeCloseTo(14, 9);
    const across = fitStack([fold], aContainer('pouch', [330, 254], { wall: lengthFromMillimetres(2) }), NO_WRAP);
    expect(across.turned).toBe(true);
    expect(across.filled.width).toBeCloseTo(324.292, 3);
    expect(across.filled.length).toBeCloseTo(248.292, 3);
    // never narrower than what is in it
    const tight = fitStack([aBlock([250, 320, 10])], aContainer('pouch', [262, 332]), NO_WRAP);
    expect(tight.filled).toMatchObject({ width: 252, length: 322 });
    const full = fitStack([aBlock([200, 300, 60])], aContainer('pouch', [250, 350], { wall: pouch.wall }), NO_WRAP);
    expect(full.filled).toMatchObject({ width: 204, length: 304, thickness: 64 });
  });
});
