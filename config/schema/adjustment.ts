import { z } from 'zod';
import { FORMS } from '#shared/rating/types.ts';
import { scaleDecimal } from '#shared/units/decimal.ts';
import { destinationSet, volume } from './postcodes.ts';
import { price } from './price.ts';
import { day, id, length, localised, mass } from './quantities.ts';
import { writtenAs } from './written-as.ts';

const condition = z.discriminatedUnion('when', [
  z.strictObject({ when: z.literal('always') }),
  z.strictObject({
    when: z.enum(['longest-side', 'second-side', 'shortest-side', 'length-and-girth']),
    over: length,
    measured: z.enum(['raw', 'rounded']).default('raw'),
  }),
  z.strictObject({ when: z.literal('volume'), over: volume }),
  z.strictObject({ when: z.literal('mass'), over: mass }),
  z.strictObject({ when: z.literal('smaller-than'), least: z.array(length).min(1).max(3) }),
  z.strictObject({ when: z.literal('form'), form: z.enum(FORMS) }),
  z.strictObject({ when: z.literal('residential') }),
  z.strictObject({ when: z.literal('destination'), to: z.array(destinationSet).min(1) }),
  z.strictObject({ when: z.literal('zone'), zones: z.array(z.string()).min(1) }),
]);

/** 7.25 per cent to parts of a million. */
const millionths = z
  .union([z.number(), z.string()])
  .transform((written, context) => {
    const scaled = scaleDecimal(String(written), 10_000);
    if (scaled.ok && scaled.value >= 0 && scaled.value <= 10_000_000) return scaled.value;
    context.addIssue({
      code: 'custom',
      message: `expected a per cent such as 7.25, at most four decimals and 1000, found ${JSON.stringify(written)}`,
    });
    return z.NEVER;
  })
  .register(writtenAs, { as: 'per-cent' });

const amount = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('amount'), price }).transform((one) => ({ kind: one.kind, minor: one.price })),
  z
    .strictObject({
      kind: z.literal('per-cent'),
      perCent: millionths,
      of: z.enum(['price', 'total']).default('price'),
      step: price.default(1),
      mode: z.enum(['down', 'nearest', 'up']).default('nearest'),
    })
    .refine((one) => one.step > 0, { path: ['step'], message: 'expected a step of at least one minor unit' })
    .transform(({ perCent, ...one }) => ({ ...one, millionths: perCent })),
]);

/** A surcharge or a discount. */
export const adjustment = z.strictObject({
  id,
  name: localised,
  from: day.optional(),
  until: day.optional(),
  when: z
    .array(condition)
    .min(1)
    .default([{ when: 'always' }]),
  amount,
  group: id.optional(),
});
