import { bookInForce, type ServiceInForce } from '#shared/rating/in-force.ts';
import { plainLength, plainMass } from '#shared/rating/plain.ts';
import type { Day } from '#shared/rating/types.ts';
import { formatVolume } from '#shared/rating/volume.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { PriceTable } from '#shared/wire/rates.ts';

/**
 * The prices of a service on a day; null when no card sells it then.
 * @throws RatingError bad-day
 */
export function priceTable(shop: Shop, service: string, day: Day): PriceTable | null {
  const found = bookInForce(shop.rates, day).services.find((each) => each.service.id === service);
  if (found === undefined) return null;
  const { card, rule } = found;
  return {
    service,
    name: found.service.name,
    carrier: card.carrier,
    day,
    rule: rule.rule,
    currency: card.currency,
    zones: rule.zones,
    rows: labels(found).map((label, index) => ({
      label,
      prices: (found.rows[index] ?? []).map((minor) => (minor < 0 ? null : minor)),
    })),
    volumeCounts: found.dimensional !== null,
    surcharges: found.surcharges.map(({ name }) => name),
    discounts: found.discounts.map(({ name }) => name),
  };
}

function labels({ rule, card }: ServiceInForce): readonly string[] {
  switch (rule.rule) {
    case 'weight-bracket':
      return rule.brackets.map((bracket) => plainMass(bracket.upTo, card.units.mass));
    case 'flat-fee':
      return rule.fees.map((fee) => fee.container);
    case 'cubic-box':
      return rule.tiers.map(({ upTo }) => formatVolume(upTo));
    case 'cubic-soft':
      return rule.tiers.map(({ upTo }) => plainLength(upTo, card.units.length));
  }
}
