import { z } from 'zod';
import { NOT_SERVED } from '#shared/rating/rate-card.ts';
import { parseMoney } from '#shared/units/money.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import { writtenAs } from './written-as.ts';

/**
 * An amount such as 4.10 to whole minor units. YAML hands over a number; its shortest decimal text is what the file says, so
 * nothing passes through binary fractions.
 */
export const price = z
  .unknown()
  .transform((written, context) => {
    if (typeof written === 'number' || typeof written === 'string') {
      try {
        const { minor } = parseMoney(String(written), 'XXX');
        if (minor >= 0) return minor;
      } catch (error) {
        if (!(error instanceof UnitError)) throw error;
      }
    }
    // JSON would show a number that is none as null.
    const found = typeof written === 'number' ? String(written) : JSON.stringify(written);
    context.addIssue({ code: 'custom', message: `expected a price such as 4.10, found ${found}` });
    return z.NEVER;
  })
  .register(writtenAs, { as: 'price' });

const bracketPrice = z.unknown().transform((written, context) => {
  if (written === 'none') return NOT_SERVED;
  const result = price.safeParse(written);
  if (result.success) return result.data;
  for (const { message } of result.error.issues) context.addIssue({ code: 'custom', message });
  return z.NEVER;
});

/** One price per zone; `none` above the heaviest bracket that a zone takes. */
export const bracketPrices = z
  .preprocess((written) => (Array.isArray(written) ? (written as unknown[]) : [written]), z.array(bracketPrice).min(1))
  .register(writtenAs, { as: 'prices' });

/** One price per zone, or a single one for every zone. */
export const prices = z
  .preprocess((written) => (Array.isArray(written) ? (written as unknown[]) : [written]), z.array(price).min(1))
  .register(writtenAs, { as: 'prices' });
