import { z } from 'zod';
import { MOST_GIVING } from '#shared/garments/cloth.ts';
import type { Cloth } from '#shared/garments/types.ts';
import { id, localised } from './quantities.ts';

const thickness = z.number().positive().max(100);

/** One cloth of `cloths.yaml`; thicknesses in mm, areal mass in g/m2. */
const cloth = z
  .strictObject({
    name: localised,
    arealMass: z.number().positive().max(3000),
    /** at 0.049 kPa */
    thicknessFree: thickness,
    /** at 4.9 kPa */
    thicknessPressed: thickness,
    thicknessSpread: z.number().positive().max(1),
    /** mm */
    bendingLength: z.number().nonnegative().max(200),
    mayPress: z.boolean().default(true),
    mayCrease: z.boolean().default(true),
    source: z.string().min(1),
  })
  .refine((each) => each.thicknessFree > each.thicknessPressed, {
    path: ['thicknessFree'],
    error: 'expected a thickness above thicknessPressed',
  })
  .refine((each) => each.thicknessFree <= MOST_GIVING * each.thicknessPressed, {
    path: ['thicknessFree'],
    error: `expected at most ${String(MOST_GIVING)} times thicknessPressed`,
  });

/** The whole of `cloths.yaml`. */
export const clothsSchema = z.strictObject({ cloths: z.record(id, cloth) });
export type ParsedCloths = z.output<typeof clothsSchema>;

export function toCloths(parsed: ParsedCloths): Map<string, Cloth> {
  return new Map(Object.entries(parsed.cloths).map(([key, each]) => [key, { id: key, ...each }]));
}
