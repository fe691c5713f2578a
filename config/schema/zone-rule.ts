import { z } from 'zod';
import { country, postcodeRange } from './postcodes.ts';
import { day } from './quantities.ts';

const dates = { from: day.optional(), until: day.optional() };
const zone = z.string().min(1);

const bands = z
  .array(z.strictObject({ upTo: z.number().positive().optional(), zone }))
  .min(1)
  .superRefine((list, context) => {
    for (const [index, band] of list.entries()) {
      const before = list[index - 1];
      const rises = before === undefined || (before.upTo !== undefined && (band.upTo ?? Infinity) > before.upTo);
      if (!rises) {
        const message = 'expected distances that rise, and only the last band without one';
        context.addIssue({ code: 'custom', path: [index, 'upTo'], message });
      }
    }
  });

/** How a card finds the zone of a route. */
export const zoneRule = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('flat'), zone, countries: z.array(country).min(1).optional(), ...dates }),
  z.strictObject({ by: z.literal('distance'), unit: z.enum(['mi', 'km']), country, bands, ...dates }),
  z.strictObject({
    by: z.literal('chart'),
    country,
    rows: z.array(z.strictObject({ from: postcodeRange, to: postcodeRange, zone })).min(1),
    ...dates,
  }),
]);
