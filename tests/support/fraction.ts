/** Exact fractions of big integers, slow and plain, for re-computing what the product computes fast. */
export interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

export const whole = (value: number | bigint): Fraction => ({ top: BigInt(value), bottom: 1n });

/** "12.25" */
export function decimalFraction(text: string): Fraction {
  const [units = '', decimals = ''] = text.split('.');
  return { top: BigInt(units + decimals), bottom: 10n ** BigInt(decimals.length) };
}

export const times = (a: Fraction, b: Fraction): Fraction => ({ top: a.top * b.top, bottom: a.bottom * b.bottom });
export const over = (a: Fraction, b: Fraction): Fraction => ({ top: a.top * b.bottom, bottom: a.bottom * b.top });
export const plus = (a: Fraction, b: Fraction): Fraction => ({
  top: a.top * b.bottom + b.top * a.bottom,
  bottom: a.bottom * b.bottom,
});
/** Negative, zero or positive. */
export function compare(a: Fraction, b: Fraction): number {
  const difference = a.top * b.bottom - b.top * a.bottom;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}
export const atMost = (a: Fraction, b: Fraction): boolean => compare(a, b) <= 0;

export const floor = (a: Fraction): bigint => a.top / a.bottom;
const ceiling = (a: Fraction): bigint => (a.top % a.bottom === 0n ? floor(a) : floor(a) + 1n);
/** A half goes up. */
const nearest = (a: Fraction): bigint => floor(plus(a, { top: 1n, bottom: 2n }));

export function rounded(value: Fraction, step: Fraction, mode: string): Fraction {
  const steps = over(value, step);
  const count = mode === 'down' ? floor(steps) : mode === 'up' ? ceiling(steps) : nearest(steps);
  return times(whole(count), step);
}

/** Quantities by the definitions: 1 in = 25.4 mm, 1 lb = 453.59237 g (international yard and pound, 1959). */
const UNITS: Readonly<Record<string, Fraction>> = {
  mm: whole(1),
  cm: whole(10),
  in: decimalFraction('25.4'),
  g: whole(1),
  kg: whole(1000),
  lb: decimalFraction('453.59237'),
  oz: over(decimalFraction('453.59237'), whole(16)),
  in3: times(decimalFraction('25.4'), times(decimalFraction('25.4'), decimalFraction('25.4'))),
  cm3: whole(1000),
  l: whole(1_000_000),
};
const remembered = new Map<string, Fraction>();

/** "0.25 in" in millimetres, "4 oz" in grams, "0.1 ft3" in cubic millimetres. */
export function quantity(text: string): Fraction {
  let found = remembered.get(text);
  if (found === undefined) {
    const [amount = '', unit = ''] = text.split(' ');
    const size = unit === 'ft3' ? times(whole(1728), UNITS.in3!) : UNITS[unit]!;
    remembered.set(text, (found = times(decimalFraction(amount), size)));
  }
  return found;
}
