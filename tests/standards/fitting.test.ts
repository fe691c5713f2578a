import { describe, expect, it } from 'vitest';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import { greatestInCard } from '#shared/fitting/card.ts';
import { flowingVolume, greatestInPouch, thicknessOfLargestBlock } from '#shared/fitting/pouch.ts';
import { normalBelow } from '#shared/fitting/normal.ts';
import { NO_WRAP, aBlock, aContainer } from '#tests/support/demo-wardrobe.ts';

// All computed from w + t <= W, l + t <= L; mm; no closing allowance.
describe('a rigid block in a lay-flat pouch', () => {
  it('254 x 330 holds 220 x 290 x 30', () => {
    expect(fitStack([aBlock([220, 290, 30])], aContainer('pouch', [254, 330]), NO_WRAP).verdict).toBe('easy');
  });

  it('254 x 330 holds 224 x 300 x 30 with nothing to spare either way', () => {
    const fit = fitStack([aBlock([224, 300, 30])], aContainer('pouch', [254, 330]), NO_WRAP);
    expect(fit.verdict).toBe('easy');
    expect(fit.slack.width).toBeCloseTo(0, 9);
    expect(fit.slack.length).toBeCloseTo(0, 9);
  });

  it('254 x 330 fails 230 x 300 x 30 in the width by 6', () => {
    const fit = fitStack([aBlock([230, 300, 30])], aContainer('pouch', [254, 330]), NO_WRAP);
    expect(fit.verdict).toBe('no');
    expect(fit.limit).toBe('width');
    expect(fit.slack.width).toBeCloseTo(-6, 9);
  });

  it('356 x 483 fails 300 across but holds it turned, 250 across', () => {
    const pouch = aContainer('pouch', [356, 483]);
    expect(300 + 80).toBeGreaterThan(356);
    const fit = fitStack([aBlock([300, 250, 80])], pouch, NO_WRAP);
    expect(fit.verdict).toBe('easy');
    expect(fit.slack.width).toBeCloseTo(356 - 250 - 80, 9);
    expect(fit.slack.length).toBeCloseTo(483 - 300 - 80, 9);
  });

  it('a pouch that is wider than long takes the long side across', () => {
    const fit = fitStack([aBlock([250, 300, 50])], aContainer('pouch', [483, 356]), NO_WRAP);
    expect(fit.verdict).toBe('easy');
    expect(fit.turned).toBe(true);
  });

  it('the closing allowance comes off the length', () => {
    const pouch = aContainer('pouch', [254, 330], { closing: 400_000 as never });
    expect(fitStack([aBlock([220, 290, 30])], pouch, NO_WRAP).slack.length).toBeCloseTo(0, 9);
  });
});

describe('the greatest thickness beside a width in 254 mm', () => {
  it.each([
    { width: 220, rigid: 34.0, soft: 59.6, card: 12.4 },
    { width: 200, rigid: 54.0, soft: null, card: 25.5 },
  ])('of $width mm', ({ width, rigid, soft, card }) => {
    expect(greatestInPouch(254, width, false)).toBeCloseTo(rigid, 6);
    if (soft !== null) expect(greatestInPouch(254, width, true)).toBeCloseTo(soft, 1);
    expect(greatestInCard(254, width)).toBeCloseTo(card, 1);
  });
});

describe('the block of greatest volume in a pouch', () => {
  it('is a third as thick as a square pouch is wide, and holds 4/27 of its cube', () => {
    const t = thicknessOfLargestBlock(1, 1);
    expect(t).toBeCloseTo(1 / 3, 12);
    expect((1 - t) * (1 - t) * t).toBeCloseTo(4 / 27, 12);
  });

  it('is the greatest, found by trying every tenth of a millimetre', () => {
    let best = 0;
    for (let t = 0.1; t < 254; t += 0.1) {
      if ((254 - t) * (330 - t) * t > (254 - best) * (330 - best) * best) best = t;
    }
    expect(thicknessOfLargestBlock(254, 330)).toBeCloseTo(best, 0);
  });

  it('holds less than the paper bag formula allows (A. C. Robin, Mathematics Today 40, 2004: 0.1905 of a unit square)', () => {
    expect(flowingVolume(1, 1)).toBeCloseTo(0.1905, 4);
    expect(flowingVolume(1, 1)).toBeGreaterThan(4 / 27);
    // 1 x 2: 2 / pi - 0.142 (1 - 0.01) = 0.63662 - 0.14058
    expect(flowingVolume(1, 2)).toBeCloseTo(0.49604, 5);
    expect(flowingVolume(2, 1)).toBe(flowingVolume(1, 2));
    // twice as large in every direction holds eight times as much
    expect(flowingVolume(2, 4)).toBeCloseTo(8 * 0.49604, 4);
  });
});

// Beyond half a turn the panels would bulge over their own side seams, which board does not do.
describe('the two-arc card against a brute search over the angle', () => {
  it.each([0.2, 0.5, 0.7, 0.866, 0.95, 0.99])('block of %d of the width', (part) => {
    let best = 0;
    for (let angle = 0.0005; angle < Math.min(Math.PI / 2, 1 / part); angle += 0.0005) {
      const radius = 1 / (2 * angle);
      best = Math.max(best, 2 * (Math.sqrt(radius ** 2 - part ** 2 / 4) - radius * Math.cos(angle)));
    }
    expect(greatestInCard(1, part)).toBeCloseTo(best, 3);
  });
});

describe('a block as wide as a card and wider', () => {
  it.each([
    [254, 0],
    [260, -6],
    [300, -46],
  ])('of %d mm in 254 mm has %d mm', (width, left) => {
    expect(greatestInCard(254, width)).toBe(left);
  });
});

describe('the normal distribution, as tables print it', () => {
  it.each([
    [0, 0.5],
    [1, 0.841345],
    [1.96, 0.975002],
    [-2, 0.02275],
    [3, 0.99865],
  ])('below %d deviations', (deviations, expected) => {
    expect(normalBelow(deviations)).toBeCloseTo(expected, 5);
  });
});
