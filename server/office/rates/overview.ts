import { rateCardFiles } from '#config/load.ts';
import { toRateCard } from '#config/schema/rate-card.ts';
import type { Dates } from '#shared/rating/dates.ts';
import { inForce } from '#shared/rating/dates.ts';
import type { RateCard, Service } from '#shared/rating/rate-card.ts';
import type { Day } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { CardRow, RatesOverview, ServiceRow, Standing } from '#shared/wire/rates.ts';

function standing(dates: Dates, day: Day): Standing {
  if (dates.from !== undefined && day < dates.from) return 'to-come';
  return inForce(dates, day) ? 'in-force' : 'ended';
}

function serviceRow(card: RateCard, service: Service, day: Day): ServiceRow {
  const ofCard = standing(card, day);
  const own = ofCard === 'in-force' ? standing(service, day) : ofCard;
  const rule = own === 'in-force' ? service.prices.find((each) => inForce(each, day)) : undefined;
  return {
    id: service.id,
    name: service.name,
    standing: own,
    rule: rule?.rule ?? null,
    until: service.until ?? card.until ?? null,
  };
}

/** Every rate card of the shop and how it stands on a day. The file names come from the config folder. */
export function ratesOverview(shop: Shop, folder: string, day: Day, today: Day): RatesOverview {
  const files = rateCardFiles(folder);
  const cards: CardRow[] = files.map(({ source, value }) => {
    const card = toRateCard(value);
    return {
      file: source.name,
      carrier: card.carrier,
      name: card.name,
      currency: card.currency,
      from: value.from,
      until: card.until ?? null,
      standing: standing(card, day),
      services: card.services.map((service) => serviceRow(card, service, day)),
    };
  });
  return {
    day,
    today,
    currency: shop.currency,
    units: { mass: shop.units.mass, length: shop.units.length },
    from: { postcode: shop.from.postcode, country: shop.from.country },
    cards,
    containers: [...shop.containers.values()].map(({ id, name, type }) => ({ id, name, type })),
  };
}
