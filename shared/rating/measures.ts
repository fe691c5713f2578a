import type { Length } from '#shared/units/length.ts';
import { lengthFromDecimal } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import { RatingError } from './rating-error.ts';
import type { Form, RatedParcel } from './types.ts';

/** A parcel's sides in order of size. `shortest` is 0 for a flat pack whose thickness is not known. */
export interface Measures {
  readonly form: Form;
  readonly longest: Length;
  readonly middle: Length;
  readonly shortest: Length;
  /** of a soft pack: of the pack lying flat; of a roll: its length and its diameter */
  readonly flatLength: Length;
  readonly flatWidth: Length;
}

/** Beyond any parcel: a number this large is a slip of the keyboard. */
const ABSURD = lengthFromDecimal('1000', 'cm');

function checkSide(name: string, side: number, least: number): void {
  if (Number.isSafeInteger(side) && side >= least && side <= ABSURD) return;
  throw new RatingError(
    'bad-size',
    `${name}: expected more than nothing and at most 10 m, found ${String(side / 40_000)} mm`,
  );
}

/** @throws RatingError bad-size when a side is no exact length, is nothing or less, or is over 10 m */
export function measure(parcel: RatedParcel): Measures {
  const { shape } = parcel;
  if (shape.form === 'soft') {
    checkSide('length', shape.length, 1);
    checkSide('width', shape.width, 1);
    checkSide('thickness', shape.thickness, 0);
    return sorted('soft', shape.length, shape.width, shape.thickness);
  }
  if (shape.form === 'roll') {
    checkSide('length', shape.length, 1);
    checkSide('diameter', shape.diameter, 1);
    return sorted('roll', shape.length, shape.diameter, shape.diameter);
  }
  const [first, second, third] = shape.sides;
  checkSide('first side', first, 1);
  checkSide('second side', second, 1);
  checkSide('third side', third, 1);
  return sorted('box', first, second, third);
}

function sorted(form: Measures['form'], a: Length, b: Length, c: Length): Measures {
  let [longest, middle, shortest] = [a, b, c];
  if (longest < middle) [longest, middle] = [middle, longest];
  if (middle < shortest) [middle, shortest] = [shortest, middle];
  if (longest < middle) [longest, middle] = [middle, longest];
  return { form, longest, middle, shortest, flatLength: a, flatWidth: b };
}

/** @throws RatingError bad-mass when it is no exact mass, or nothing or less */
export function checkMass(mass: Mass): void {
  if (Number.isSafeInteger(mass) && mass > 0) return;
  throw new RatingError('bad-mass', `mass: expected more than nothing, found ${String(mass / 16_000_000_000)} g`);
}
