import { describe, expect, it } from 'vitest';
import { waitAfter } from '#shared/labels/backoff.ts';
import { customsGaps, customsLines, goesAbroad } from '#shared/labels/customs.ts';
import { isSameNumber } from '#shared/labels/same-number.ts';
import type { Piece } from '#shared/garments/types.ts';
import { PLAIN_SHIPMENTS } from '#shared/shipments/fields.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { demoWardrobe } from '#tests/support/demo-wardrobe.ts';

describe('the wait after a delivery that failed', () => {
  const waits = { firstRetrySeconds: 2, longestRetrySeconds: 900 };
  it.each([
    // half of 2, 4, 8 s for certain, the other half by chance
    [1, 0, 1000],
    [1, 1, 2000],
    [2, 0.5, 3000],
    [3, 0.25, 5000],
    [9, 0, 256_000],
    [10, 0, 450_000],
    [10, 1, 900_000],
    [5000, 0.5, 675_000],
  ])('number %d, with a chance of %d, is %d ms', (attempts, chance, wait) => {
    expect(waitAfter(attempts, waits, chance)).toBe(wait);
  });
});

it.each([
  ['RR 4731 2482 9 XA', 'rr473124829xa', true],
  ['9212-3912', '92123912', true],
  ['92123912', '92123913', false],
  ['A1', '1', false],
])('%j and %j are the same number: %s', (one, other, same) => {
  expect(isSameNumber(one, other)).toBe(same);
});

describe('what the customs are told', () => {
  const shop = {
    wardrobe: demoWardrobe(),
    units: { mass: 'g', massPlaces: 0, length: 'cm' },
    shipments: { ...PLAIN_SHIPMENTS, origin: 'US', hsCodes: { jeans: '620342' } },
  } as const;
  const piece = (sku: string, more: Partial<Piece>): [string, Piece] => [
    sku,
    { sku, title: `The ${sku}`, kind: 'jeans', ...more },
  ];
  const pieces = new Map([
    piece('A', { mass: massFromGrams(612.5), value: { minor: 2450, currency: 'USD' }, origin: 'PT', hsCode: '620343' }),
    piece('B', {}),
    piece('C', { kind: 'sari' }),
  ]);

  it('is one line for each kind of piece, with the mass and the value of all of them', () => {
    expect(customsLines(['A', 'B', 'A'], pieces, shop, { A: 1, B: 580 })).toEqual([
      {
        sku: 'A',
        contents: 'Jeans',
        count: 2,
        value: { minor: 4900, currency: 'USD' },
        mass: { amount: '1225.00', unit: 'g' },
        origin: 'PT',
        hsCode: '620343',
      },
      {
        sku: 'B',
        contents: 'Jeans',
        count: 1,
        value: null,
        mass: { amount: '580.00', unit: 'g' },
        origin: 'US',
        hsCode: '620342',
      },
    ]);
  });

  it('takes what the kind weighs for a piece that nobody weighed, and knows nothing of what is unknown', () => {
    const [b, c, d] = customsLines(['B', 'C', 'D'], pieces, shop);
    expect(b?.mass).toEqual({ amount: shop.wardrobe.kinds.get('jeans')!.mass.mean.toFixed(2), unit: 'g' });
    expect(c).toMatchObject({ contents: 'sari', mass: null, origin: 'US', hsCode: null });
    expect(d).toEqual({ sku: 'D', contents: '', count: 1, value: null, mass: null, origin: 'US', hsCode: null });
    const { shipments: _, ...plain } = shop;
    expect(customsLines(['B'], pieces, plain)[0]).toMatchObject({ origin: null, hsCode: null });
  });

  it('names what is missing; the tariff number may be', () => {
    const { shipments: _, ...plain } = shop;
    const gaps = (skus: readonly string[]) => customsGaps(customsLines(skus, pieces, plain), (sku) => `The ${sku}`);
    expect(gaps(['A'])).toEqual([]);
    expect(gaps(['A', 'B', 'D'])).toEqual([
      { sku: 'B', title: 'The B', missing: ['value', 'origin'] },
      { sku: 'D', title: 'The D', missing: ['value', 'mass', 'origin'] },
    ]);
  });

  it('only where the parcel leaves the country', () => {
    expect(goesAbroad({ to: { country: 'CA' } } as never, { from: { country: 'US' } } as never)).toBe(true);
    expect(goesAbroad({ to: { country: 'US' } } as never, { from: { country: 'US' } } as never)).toBe(false);
  });
});
