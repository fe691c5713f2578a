import { z } from 'zod';
import { parsePostcodeRange } from '#shared/rating/postcodes.ts';
import { RatingError } from '#shared/rating/rating-error.ts';
import { parseVolume } from '#shared/rating/volume.ts';
import { writtenAs } from './written-as.ts';

/** A YAML text turned into a value of a rate card; a RatingError's message becomes the problem at that path. */
function ratingText<Value>(parse: (text: string) => Value) {
  return z.string().transform((text, context) => {
    try {
      return parse(text);
    } catch (error) {
      if (!(error instanceof RatingError)) throw error;
      context.addIssue({ code: 'custom', message: error.message });
      return z.NEVER;
    }
  });
}

/** "558", "550-567" */
export const postcodeRange = ratingText(parsePostcodeRange).register(writtenAs, { as: 'postcodes' });

/** "0.10 ft3", "1728 in3", "5 l" */
export const volume = ratingText(parseVolume).register(writtenAs, { as: 'volume' });

/** ISO 3166 two-letter code. */
export const country = z.string().regex(/^[A-Z]{2}$/, 'expected a country code of two capital letters such as US');

export const destinationSet = z.strictObject({
  country: country.optional(),
  postcodes: z.array(postcodeRange).min(1).optional(),
});
