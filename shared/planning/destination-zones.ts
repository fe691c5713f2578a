import type { RateBook, ZoneRule } from '#shared/rating/rate-card.ts';

/** A zone and how many of the shop's parcels go there, in any measure. */
export interface ZoneWeight {
  readonly zone: string;
  readonly weight: number;
}

function zonesOf(rule: ZoneRule, country: string): readonly string[] {
  switch (rule.by) {
    case 'flat':
      return rule.countries === undefined || rule.countries.includes(country) ? [rule.zone] : [];
    case 'distance':
      return rule.country === country ? rule.bands.map((band) => band.zone) : [];
    case 'chart':
      return rule.country === country ? rule.rows.map((row) => row.zone) : [];
  }
}

/** Every zone that the rate cards know within a country, each as likely as the others. */
export function zonesWithin(country: string, book: RateBook): readonly ZoneWeight[] {
  const zones = book.cards.flatMap((card) => card.zones).flatMap((rule) => zonesOf(rule, country));
  return [...new Set(zones)].sort().map((zone) => ({ zone, weight: 1 }));
}
