import { z } from 'zod';
import { CONTAINER_TYPES } from '#shared/fitting/types.ts';
import { checkBook } from '#shared/rating/check-book.ts';
import type { RateBook, RateCard } from '#shared/rating/rate-card.ts';
import { RatingError } from '#shared/rating/rating-error.ts';
import { LENGTH_UNITS } from '#shared/units/length.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import { adjustment } from './adjustment.ts';
import { limit } from './limit.ts';
import { priceRule } from './price-rule.ts';
import { localised, day, id } from './quantities.ts';
import { destinationSet } from './postcodes.ts';
import { zoneRule } from './zone-rule.ts';
import { knownPlaces } from '#config/zones/known-places.ts';

const deliveryDays = z
  .tuple([z.int().min(0), z.int().min(0)])
  .refine(([least, most]) => least <= most, 'expected the fewest days first')
  .readonly();

const service = z.strictObject({
  id,
  name: localised,
  from: day.optional(),
  until: day.optional(),
  days: deliveryDays.optional(),
  daysByZone: z.record(z.string(), deliveryDays).optional(),
  containerTypes: z.array(z.enum(CONTAINER_TYPES)).min(1).optional(),
  containers: z.array(id).min(1).optional(),
  refuses: z.array(destinationSet).default([]),
  limits: z.array(limit).default([]),
  prices: z.array(priceRule).min(1),
  discounts: z.array(adjustment).default([]),
  surcharges: z.array(adjustment).default([]),
});

/** A rate card as its YAML file says it. */
export const rateCardSchema = z
  .strictObject({
    carrier: id,
    name: localised,
    currency: z.string().regex(/^[A-Z]{3}$/, 'expected a currency code of three letters such as USD'),
    units: z.strictObject({ mass: z.enum(MASS_UNITS), length: z.enum(LENGTH_UNITS) }),
    from: day,
    until: day.optional(),
    // none: the card answers for a zone that is given, and refuses a postcode
    zones: z.array(zoneRule),
    services: z.array(service).min(1),
  })
  .superRefine((card, context) => {
    for (const [index, one] of card.services.entries()) {
      const path = ['services', index];
      if (card.services.findIndex((other) => other.id === one.id) !== index) {
        context.addIssue({
          code: 'custom',
          path: [...path, 'id'],
          message: `the service "${one.id}" is on this card twice`,
        });
      }
      const massBound = one.limits.some((each) => each.limit === 'largest-mass' && each.from === undefined);
      if (!massBound && one.prices.some((rule) => rule.rule !== 'weight-bracket')) {
        context.addIssue({
          code: 'custom',
          path: [...path, 'limits'],
          message: 'expected a limit "largest-mass": this service has no weight brackets to end it',
        });
      }
    }
  });

export type ParsedRateCard = z.output<typeof rateCardSchema>;

/**
 * The shop's rate book from its parsed cards, with open postcode data to find zones by distance.
 * @throws RatingError bad-book when the cards together leave a price ambiguous or mix currencies
 */
export function toRateBook(parsedCards: readonly ParsedRateCard[], places: RateBook['places'] = knownPlaces): RateBook {
  const cards = parsedCards.map(toRateCard);
  const errors = checkBook(cards).filter((problem) => problem.severity === 'error');
  if (errors.length > 0) {
    const lines = errors.map(
      ({ carrier, service, message }) => `${[carrier, service ?? []].flat().join(' / ')}: ${message}`,
    );
    throw new RatingError('bad-book', lines.join('\n'));
  }
  return { cards, places };
}

// zod writes an absent optional as `| undefined`; exact optional properties leave it out.
export function toRateCard(parsed: ParsedRateCard): RateCard {
  return parsed as RateCard;
}
