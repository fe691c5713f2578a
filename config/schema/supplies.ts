import { z } from 'zod';
import { id, mass } from './quantities.ts';

const notNegative = mass.refine((value) => value >= 0, 'expected a mass of zero or more');

/** supplies.yaml */
export const suppliesFile = z.strictObject({
  additions: z.array(z.strictObject({ name: z.string().min(1), mass: notNegative, plusMinus: notNegative })),
  outOfStock: z.array(id).optional(),
});

export type SuppliesFile = z.output<typeof suppliesFile>;
