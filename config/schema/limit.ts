import { z } from 'zod';
import { FORMS } from '#shared/rating/types.ts';
import { day, length, mass } from './quantities.ts';
import { volume } from './postcodes.ts';

const dates = { from: day.optional(), until: day.optional() };
const forms = z.array(z.enum(FORMS)).min(1).optional();
const measured = z.enum(['raw', 'rounded']).default('raw');

/** A bound on what a service takes. */
export const limit = z.discriminatedUnion('limit', [
  z.strictObject({ limit: z.literal('largest-mass'), most: mass, ...dates }),
  z.strictObject({ limit: z.literal('smallest-mass'), least: mass, ...dates }),
  z.strictObject({
    limit: z.enum([
      'longest-side',
      'second-side',
      'shortest-side',
      'length-and-girth',
      'sum-of-sides',
      'length-and-two-diameters',
    ]),
    most: length,
    measured,
    forms,
    ...dates,
  }),
  z.strictObject({ limit: z.literal('smallest-size'), least: z.array(length).min(1).max(3), forms, ...dates }),
  z.strictObject({ limit: z.literal('largest-volume'), most: volume, forms, ...dates }),
]);
