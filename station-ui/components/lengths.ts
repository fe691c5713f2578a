import { lengthFromMillimetres, lengthWords } from '#shared/units/length.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { Language } from '#shared/words/language.ts';

/** A geometry's float millimetres as the trade says them, without the unit: "10½", "26.5", in Spanish "26,5". */
export function millimetreWords(millimetres: number, unit: LengthUnit, language: Language): string {
  return lengthWords(lengthFromMillimetres(millimetres), unit, language);
}
