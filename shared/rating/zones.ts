import { inForce } from './dates.ts';
import { greatCircle } from './distance.ts';
import { inRange, normalPostcode } from './postcodes.ts';
import type { RateBook, RateCard, ZoneRule } from './rate-card.ts';
import type { Day, Destination, Reason, Route } from './types.ts';

export type ZoneAnswer =
  { readonly zone: string; readonly how: Reason } | { readonly zone: null; readonly why: Reason };

type Places = RateBook['places'];

/** The zone of a route on a card, and how it was found; or why there is none. A postcode is never guessed. */
export function zoneOf(card: RateCard, route: Route, day: Day, places: Places): ZoneAnswer {
  if ('zone' in route) return { zone: route.zone, how: { code: 'zone-given', values: { zone: route.zone } } };
  const from = { ...route.from, postcode: normalPostcode(route.from.postcode, route.from.country) };
  const to = { ...route.to, postcode: normalPostcode(route.to.postcode, route.to.country) };
  let why: Reason | null = null;
  for (const rule of card.zones) {
    if (!inForce(rule, day)) continue;
    const answer = byRule(rule, from, to, places);
    if (answer === null) continue;
    if (answer.zone !== null) return answer;
    why ??= answer.why;
  }
  return {
    zone: null,
    why: why ?? { code: 'destination-not-served', values: { postcode: to.postcode, country: to.country } },
  };
}

/** null: the rule is not about this destination. */
function byRule(rule: ZoneRule, from: Destination, to: Destination, places: Places): ZoneAnswer | null {
  switch (rule.by) {
    case 'flat':
      if (rule.countries !== undefined && !rule.countries.includes(to.country)) return null;
      return { zone: rule.zone, how: { code: 'zone-flat', values: { zone: rule.zone, country: to.country } } };
    case 'distance':
      return to.country === rule.country && from.country === rule.country ? byDistance(rule, from, to, places) : null;
    case 'chart':
      return to.country === rule.country && from.country === rule.country ? byChart(rule, from, to) : null;
  }
}

function byDistance(
  rule: Extract<ZoneRule, { readonly by: 'distance' }>,
  from: Destination,
  to: Destination,
  places: Places,
): ZoneAnswer {
  const start = places(from);
  if (start === null) return { zone: null, why: unknown(from) };
  const end = places(to);
  if (end === null) return { zone: null, why: unknown(to) };
  const distance = greatCircle(start, end, rule.unit);
  const band = rule.bands.find((each) => each.upTo === undefined || distance <= each.upTo);
  const values = { distance: `${String(Math.round(distance))} ${rule.unit}`, postcode: to.postcode };
  if (band === undefined) return { zone: null, why: { code: 'too-far', values } };
  return { zone: band.zone, how: { code: 'zone-distance', values: { ...values, zone: band.zone } } };
}

function byChart(rule: Extract<ZoneRule, { readonly by: 'chart' }>, from: Destination, to: Destination): ZoneAnswer {
  const row = rule.rows.find((each) => inRange(from.postcode, each.from) && inRange(to.postcode, each.to));
  if (row !== undefined) {
    return { zone: row.zone, how: { code: 'zone-chart', values: { zone: row.zone, postcode: to.postcode } } };
  }
  const startKnown = rule.rows.some((each) => inRange(from.postcode, each.from));
  return { zone: null, why: unknown(startKnown ? to : from) };
}

function unknown(place: Destination): Reason {
  return { code: 'unknown-postcode', values: { postcode: place.postcode, country: place.country } };
}
