import { z } from 'zod';
import { parseMoney } from '#shared/units/money.ts';
import { UnitError } from '#shared/units/unit-error.ts';

/**
 * An amount such as 4.10 to whole minor units. YAML hands over a number; its shortest decimal text is what the file says, so
 * nothing passes through binary fractions.
 */
export const price = z.union([z.number(), z.string()]).transform((written, context) => {
  try {
    const { minor } = parseMoney(String(written), 'XXX');
    if (minor >= 0) return minor;
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
  }
  context.addIssue({ code: 'custom', message: `expected a price such as 4.10, found ${JSON.stringify(written)}` });
  return z.NEVER;
});

/** One price per zone, or a single one for every zone. */
export const prices = z.union([price.transform((one) => [one]), z.array(price).min(1)]);
