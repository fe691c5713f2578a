import { lengthFromDecimal } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import { massFromBase, massFromDecimal, ZERO_MASS } from '#shared/units/mass.ts';
import type { Measures } from './measures.ts';
import type { DimensionalRule } from './rate-card.ts';
import { ceilingDivide, stepsOf } from './rounding.ts';
import { cubesWithin } from './volume.ts';

/** A dimensional rule made ready: how many units of `roundUpTo` one cubed step weighs, as a reduced fraction. */
export interface DimensionalFactor {
  readonly rule: DimensionalRule;
  readonly box: Fraction;
  readonly soft: Fraction;
  /** parcels of at most so many cubed steps (or base lengths, where raw sides are measured) go by weight alone */
  readonly exemptCubes: bigint;
}

/** Numbers where they are exact, which is nearly always: they reckon faster. */
interface Fraction {
  readonly top: number | bigint;
  readonly bottom: number | bigint;
}

const small = (value: bigint): number | bigint => (value <= Number.MAX_SAFE_INTEGER ? Number(value) : value);

function reduced(top: bigint, bottom: bigint): Fraction {
  let [a, b] = [top, bottom];
  while (b !== 0n) [a, b] = [b, a % b];
  return { top: small(top / a), bottom: small(bottom / a) };
}

export function dimensionalFactor(rule: DimensionalRule): DimensionalFactor {
  const step = BigInt(rule.sides.step);
  const unit = BigInt(lengthFromDecimal('1', rule.length));
  const top = step ** 3n * BigInt(massFromDecimal('1', rule.mass));
  const bottom = unit ** 3n * BigInt(rule.divisor) * BigInt(rule.roundUpTo);
  return {
    rule,
    box: reduced(top, bottom),
    soft: reduced(top * BigInt(rule.nonRectangular ?? 1000), bottom * 1000n),
    exemptCubes:
      rule.above === undefined
        ? 0n
        : cubesWithin(rule.above.volume, rule.above.measured === 'raw' ? 1 : rule.sides.step),
  };
}

/**
 * The mass that the parcel's volume is billed as, or zero where the rule leaves it to the scale. Exact; above what a mass can
 * say it is the largest mass, which no bracket holds.
 */
export function dimensionalMass(factor: DimensionalFactor, measures: Measures): Mass {
  const { rule } = factor;
  const a = stepsOf(measures.longest, rule.sides);
  const b = stepsOf(measures.middle, rule.sides);
  const c = stepsOf(measures.shortest, rule.sides);
  const cubes = a * b * c;
  if (isExempt(factor, measures, Number.isSafeInteger(cubes) ? cubes : BigInt(a) * BigInt(b) * BigInt(c))) {
    return ZERO_MASS;
  }
  const { top, bottom } = measures.form === 'box' ? factor.box : factor.soft;
  const numerator = cubes * Number(top);
  const count = Number.isSafeInteger(numerator)
    ? divideUp(numerator, Number(bottom))
    : Number(ceilingDivide(BigInt(a) * BigInt(b) * BigInt(c) * BigInt(top), BigInt(bottom)));
  const billed = count * rule.roundUpTo;
  return massFromBase(Number.isSafeInteger(billed) ? billed : Number.MAX_SAFE_INTEGER);
}

function isExempt(factor: DimensionalFactor, measures: Measures, cubes: number | bigint): boolean {
  const { above } = factor.rule;
  if (above === undefined) return false;
  if (above.measured === 'rounded') return cubes <= factor.exemptCubes;
  return BigInt(measures.longest) * BigInt(measures.middle) * BigInt(measures.shortest) <= factor.exemptCubes;
}

/** Whole numbers only: a quotient of floats could slip over an edge. */
function divideUp(numerator: number, denominator: number): number {
  const rest = numerator % denominator;
  return (numerator - rest) / denominator + (rest === 0 ? 0 : 1);
}
