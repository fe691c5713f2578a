import type { Mass } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { checkMass } from './measures.ts';
import type { Settled } from './price.ts';
import { basePrice, NO_PRICE, priceAt } from './price.ts';
import { ruleKind, stepsOfService } from './price-steps.ts';
import type { RateBook } from './rate-card.ts';
import { offerReasons, priceChanges } from './reasons.ts';
import { massRefusal } from './refusals.ts';
import { settleAll } from './settle-all.ts';
import type { Day, Offer, Quote, RatedParcel, Reason, Refusal, Route } from './types.ts';

/**
 * What every service of the book asks for a parcel, cheapest first, each with its reasons; and why the others refuse it.
 * @throws RatingError bad-size, bad-mass or bad-day
 */
export function quote(book: RateBook, parcel: RatedParcel, mass: Mass, route: Route, day: Day): Quote {
  checkMass(mass);
  const { taking, refused } = settleAll(book, parcel, route, day);
  const offers: Offer[] = [];
  const byMass: Refusal[] = [];
  for (const { settled, zone, zoneHow } of taking) {
    const { service, card } = settled.service;
    if (basePrice(settled, mass) !== NO_PRICE) offers.push(offerOf(settled, mass, zone, zoneHow));
    else byMass.push({ service: service.id, carrier: card.carrier, why: massRefusal(settled, mass) });
  }
  offers.sort((a, b) => a.price.minor - b.price.minor);
  return { offers, refused: [...refused, ...byMass] };
}

function offerOf(settled: Settled, mass: Mass, zone: string, zoneHow: Reason): Offer {
  const { rule, card } = settled.service;
  const { steps, ...service } = stepsOfService(settled, zone);
  const here = steps.findIndex((step) => mass <= step.ceiling);
  const byMass = steps.length > 1;
  return {
    service: service.service,
    carrier: service.carrier,
    price: money(priceAt(settled, mass), card.currency),
    rule: settled.floor > mass ? ruleKind(settled) : rule.rule,
    zone,
    billedMass: settled.floor > mass ? settled.floor : mass,
    bracketCeiling: byMass ? (steps[here]?.ceiling ?? null) : null,
    nextPrice: steps[here + 1]?.price ?? null,
    cubicTier: rule.rule === 'cubic-box' || rule.rule === 'cubic-soft' ? (rule.tiers[settled.row]?.tier ?? null) : null,
    surcharges: priceChanges(settled, mass),
    reasons: offerReasons(settled, mass, zoneHow),
    ...(service.days === undefined ? {} : { days: service.days }),
  };
}
