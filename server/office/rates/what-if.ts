import { askedMass, askedParcel, askedRoute } from './asked-parcel.ts';
import { reasonWords } from '#shared/rating/explain.ts';
import { nextEdges } from '#shared/rating/next-edges.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import { quote } from '#shared/rating/quote.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { formatMassPlain, massIn } from '#shared/units/mass.ts';
import type { Language } from '#shared/words/language.ts';
import type { PriceCurve, WhatIf, WhatIfRequest } from '#shared/wire/rates.ts';

/**
 * What every service would ask for a parcel on a day: offers cheapest first, refusals, and each price over mass.
 * @throws AskedError, or RatingError on a size, mass or day that no parcel has
 */
export function whatIf(shop: Shop, asked: WhatIfRequest): WhatIf {
  const { day, language } = asked;
  const parcel = askedParcel(asked, shop);
  const mass = askedMass(asked.mass);
  const route = askedRoute(asked.zone, asked.to, shop);
  const { offers, refused } = quote(shop.rates, parcel, mass, route, day);
  const unit = shop.units.mass;
  const name = serviceNames(shop, language);
  const curves: PriceCurve[] = priceSteps(shop.rates, parcel, route, day).steps.map(({ service, steps, least }) => ({
    service,
    name: name(service),
    least: least === undefined ? null : { mass: massIn(least, unit), label: formatMassPlain(least, unit) },
    steps: steps.map(({ ceiling, price }) => ({
      upTo: massIn(ceiling, unit),
      label: formatMassPlain(ceiling, unit),
      minor: price.minor,
    })),
  }));
  return {
    day,
    currency: shop.currency,
    massUnit: unit,
    mass: massIn(mass, unit),
    offers: offers.map((offer) => ({
      service: offer.service,
      name: name(offer.service),
      carrier: offer.carrier,
      price: offer.price,
      rule: offer.rule,
      zone: offer.zone,
      billed: formatMassPlain(offer.billedMass, unit),
      ceiling: offer.bracketCeiling === null ? null : formatMassPlain(offer.bracketCeiling, unit),
      days: offer.days ?? null,
      reasons: offer.reasons.map((reason) => reasonWords(reason, language)),
      edges: nextEdges(shop.rates, offer.service, parcel, mass, route, day).map(({ leads, along, reason }) => ({
        leads,
        along,
        words: reasonWords(reason, language),
      })),
    })),
    refused: refused.map(({ service, carrier, why }) => ({
      service,
      name: name(service),
      carrier,
      code: why.code,
      why: reasonWords(why, language),
    })),
    curves,
  };
}

function serviceNames(shop: Shop, language: Language): (id: string) => string {
  const names = new Map(
    shop.rates.cards.flatMap((card) => card.services.map((service) => [service.id, service.name[language]] as const)),
  );
  return (id) => names.get(id) ?? id;
}
