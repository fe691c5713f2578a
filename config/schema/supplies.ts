import { z } from 'zod';
import { mass } from './quantities.ts';

const notNegative = mass.refine((value) => value >= 0, 'expected a mass of zero or more');

/** supplies.yaml */
export const suppliesFile = z.strictObject({
  additions: z.array(z.strictObject({ name: z.string().min(1), mass: notNegative, plusMinus: notNegative })),
});

export type SuppliesFile = z.output<typeof suppliesFile>;
