import { z } from 'zod';
import { HttpError } from './http-error.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import { LANGUAGES } from '#shared/words/language.ts';

const text = z.string().max(400);

export const whatIfRequest = z.strictObject({
  day: text,
  mass: text,
  container: text.optional(),
  size: text.optional(),
  soft: text.optional(),
  roll: text.optional(),
  thickness: text.optional(),
  zone: text.optional(),
  to: z.strictObject({ postcode: text, country: text, residential: z.boolean().optional() }).optional(),
  language: z.enum(LANGUAGES),
});

const zones = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('as-before') }),
  z.strictObject({ by: z.literal('given-only') }),
  z.strictObject({ by: z.literal('flat'), zone: text }),
  z.strictObject({
    by: z.literal('distance'),
    unit: z.enum(['mi', 'km']),
    country: text,
    bands: z.array(z.strictObject({ upTo: z.number().nullable(), zone: text })).max(100),
  }),
  z.strictObject({
    by: z.literal('chart'),
    text: z.string(),
    country: text,
    origin: text.nullable(),
  }),
]);

export const rateImport = z
  .strictObject({
    text: z.string().optional(),
    file: z.strictObject({ name: text, base64: z.base64() }).optional(),
    carrier: text,
    cardName: text,
    service: text,
    serviceName: text,
    from: text,
    massUnit: z.enum(MASS_UNITS).nullable(),
    decimal: z.enum(['.', ',']).nullable(),
    zones,
    carryOver: z.boolean(),
    acceptWarnings: z.boolean(),
    replace: z.boolean(),
  })
  .refine((one) => (one.text === undefined) !== (one.file === undefined), 'expected either text or file');

/** @throws HttpError 400 that names the place */
export function checkedBody<Schema extends z.ZodType>(schema: Schema, body: unknown): z.output<Schema> {
  const result = schema.safeParse(body);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  throw new HttpError(400, 'bad-request', `${issue?.path.join('.') ?? ''}: ${issue?.message ?? 'not understood'}`);
}
