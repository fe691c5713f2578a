import fc from 'fast-check';
import type { RatedParcel } from '#shared/rating/types.ts';
import { parseLength } from '#shared/units/length.ts';
import type { NaiveParcel } from './naive-rates.ts';

/** A count of thousandths around the multiples that rules round to, and anywhere. */
const around = (multiple: number, most: number) =>
  fc.oneof(
    fc
      .tuple(fc.integer({ min: 1, max: Math.floor(most / multiple) }), fc.constantFrom(-1, 0, 0, 1))
      .map(([count, off]) => count * multiple + off),
    fc.integer({ min: 1, max: most }),
  );

/** A count of the last decimal as decimal text. */
const asText = (count: number, places: number): string => {
  const digits = String(count).padStart(places + 1, '0');
  return `${digits.slice(0, -places)}.${digits.slice(-places)}`;
};

export const inches = around(250, 26_000).map((count) => `${asText(count, 3)} in`);
export const centimetres = around(1000, 65_000).map((count) => `${asText(count, 3)} cm`);
export const ounces = around(40_000, 3_400_000).map((count) => `${asText(count, 4)} oz`);
export const pounds = around(5000, 210_000).map((count) => `${asText(count, 4)} lb`);
export const grams = around(500_000, 210_000_000).map((count) => `${asText(count, 4)} g`);

export function randomParcel(
  side: fc.Arbitrary<string>,
  mass: fc.Arbitrary<string>,
  packaging: readonly Partial<NaiveParcel>[],
) {
  return fc
    .record({
      form: fc.constantFrom('box' as const, 'soft' as const, 'box' as const, 'soft' as const, 'roll' as const),
      sides: fc.tuple(side, side, side),
      mass,
      packaging: fc.constantFrom<Partial<NaiveParcel>>({}, {}, ...packaging),
      residential: fc.boolean(),
    })
    .map(({ packaging: own, ...parcel }): NaiveParcel => {
      const [length, diameter] = parcel.sides;
      const sides = parcel.form === 'roll' ? ([length, diameter, diameter] as const) : parcel.sides;
      return { ...parcel, sides, ...own };
    });
}

/** The same parcel as the product takes it. */
export function ratedParcel(naive: NaiveParcel): RatedParcel {
  const [a, b, c] = naive.sides.map(parseLength);
  return {
    shape: {
      box: { form: 'box', sides: [a!, b!, c!] } as const,
      soft: { form: 'soft', length: a!, width: b!, thickness: c! } as const,
      roll: { form: 'roll', length: a!, diameter: b! } as const,
    }[naive.form],
    ...(naive.container === undefined ? {} : { container: naive.container }),
    ...(naive.containerOwner === undefined ? {} : { containerOwner: naive.containerOwner }),
    ...(naive.containerType === undefined ? {} : { containerType: naive.containerType as 'pouch' }),
  };
}
