import { z } from 'zod';
import { day, length, mass } from './quantities.ts';
import { volume } from './postcodes.ts';

const dates = { from: day.optional(), until: day.optional() };
const measured = z.enum(['raw', 'rounded']).default('raw');

/** A bound on what a service takes. */
export const limit = z.discriminatedUnion('limit', [
  z.strictObject({ limit: z.literal('largest-mass'), most: mass, ...dates }),
  z.strictObject({
    limit: z.enum(['longest-side', 'second-side', 'shortest-side', 'length-and-girth', 'sum-of-sides']),
    most: length,
    measured,
    ...dates,
  }),
  z.strictObject({ limit: z.literal('smallest-size'), least: z.array(length).min(1).max(3), ...dates }),
  z.strictObject({ limit: z.literal('largest-volume'), most: volume, ...dates }),
]);
