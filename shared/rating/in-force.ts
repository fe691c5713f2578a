import type { Mass } from '#shared/units/mass.ts';
import type { Adjustment } from './adjustment.ts';
import { tierCounts } from './cubic.ts';
import { inForce } from './dates.ts';
import type { DimensionalFactor } from './dimensional.ts';
import { dimensionalFactor } from './dimensional.ts';
import type { Limit, SizeLimit } from './limit.ts';
import type { PriceRule, Prices, RateBook, RateCard, Service } from './rate-card.ts';
import { NOT_SERVED } from './rate-card.ts';
import { RatingError } from './rating-error.ts';
import type { SideRounding } from './rounding.ts';
import type { Day } from './types.ts';

/** A service as it stands on one day, with everything that pricing asks for looked up once. */
export interface ServiceInForce {
  readonly card: RateCard;
  readonly service: Service;
  readonly rule: PriceRule;
  /** prices by bracket, tier or container; then by zone */
  readonly rows: readonly Prices[];
  /** weight brackets: highest mass of each row */
  readonly ceilings: readonly number[];
  /** weight brackets: highest mass of each zone */
  readonly zoneEnds: readonly number[] | null;
  /** cubic: tier ceilings in the count of `cubicCount` */
  readonly tiers: readonly (number | bigint)[];
  readonly rounding: SideRounding | null;
  readonly dimensional: DimensionalFactor | null;
  readonly sizeLimits: readonly SizeLimit[];
  /** largest mass that the service takes */
  readonly largestMass: Mass;
  /** smallest that it takes, or nothing */
  readonly smallestMass: Mass;
  readonly discounts: readonly Adjustment[];
  readonly surcharges: readonly Adjustment[];
  /** every mass at which the price may change, ascending, the largest mass among them */
  readonly massEdges: readonly Mass[];
}

export interface BookInForce {
  readonly services: readonly ServiceInForce[];
  /** services that are not sold on the day, neither by this card nor by another */
  readonly absent: readonly { readonly card: RateCard; readonly service: Service }[];
}

// Remembering changes no answer: a book is immutable.
const remembered = new WeakMap<RateBook, Map<Day, BookInForce>>();

/** The services of a book on a day. @throws RatingError bad-day when the day is not written 2026-11-25 */
export function bookInForce(book: RateBook, day: Day): BookInForce {
  let days = remembered.get(book);
  if (days === undefined) remembered.set(book, (days = new Map<Day, BookInForce>()));
  let found = days.get(day);
  if (found === undefined) {
    if (!/^\d{4}-\d{2}-\d{2}$/.test(day)) {
      throw new RatingError('bad-day', `day: expected a date such as 2026-11-25, found "${day}"`);
    }
    days.set(day, (found = assemble(book, day)));
  }
  return found;
}

function assemble(book: RateBook, day: Day): BookInForce {
  const services: ServiceInForce[] = [];
  const others: { readonly card: RateCard; readonly service: Service }[] = [];
  for (const card of book.cards) {
    for (const service of card.services) {
      const rule =
        inForce(card, day) && inForce(service, day) ? service.prices.find((each) => inForce(each, day)) : undefined;
      if (rule === undefined) others.push({ card, service });
      else services.push(ready(card, service, rule, day));
    }
  }
  const sold = new Set(services.map((each) => each.service.id));
  const absent = others.filter(({ service }, index) => {
    const firstMention = others.findIndex((other) => other.service.id === service.id) === index;
    return firstMention && !sold.has(service.id);
  });
  return { services, absent };
}

function ready(card: RateCard, service: Service, rule: PriceRule, day: Day): ServiceInForce {
  const limits = service.limits.filter((limit) => inForce(limit, day));
  const ceilings = rule.rule === 'weight-bracket' ? rule.brackets.map((bracket) => bracket.upTo) : [];
  const largestMass = Math.min(...largestMasses(limits), ceilings.at(-1) ?? Number.MAX_SAFE_INTEGER) as Mass;
  const factor = rule.rule === 'weight-bracket' ? rule.dimensional.find((each) => inForce(each, day)) : undefined;
  const discounts = service.discounts.filter((each) => inForce(each, day));
  const surcharges = service.surcharges.filter((each) => inForce(each, day));
  const cubic = rule.rule === 'cubic-box' || rule.rule === 'cubic-soft';
  return {
    card,
    service,
    rule,
    rows: rowsOf(rule),
    ceilings,
    zoneEnds: zoneEnds(rule),
    tiers: cubic ? tierCounts(rule).map((count) => (count <= Number.MAX_SAFE_INTEGER ? Number(count) : count)) : [],
    rounding: cubic ? rule.sides : (factor?.sides ?? null),
    dimensional: factor === undefined ? null : dimensionalFactor(factor),
    sizeLimits: limits.filter((limit) => limit.limit !== 'largest-mass' && limit.limit !== 'smallest-mass'),
    largestMass,
    smallestMass: Math.max(0, ...smallestMasses(limits)) as Mass,
    discounts,
    surcharges,
    massEdges: massEdges(ceilings, [...discounts, ...surcharges], largestMass),
  };
}

function zoneEnds(rule: PriceRule): readonly number[] | null {
  if (rule.rule !== 'weight-bracket') return null;
  const columns = rule.brackets[0]?.prices ?? [];
  return columns.map((_, column) => rule.brackets.findLast(({ prices }) => prices[column] !== NOT_SERVED)?.upTo ?? 0);
}

function massEdges(ceilings: readonly Mass[], adjustments: readonly Adjustment[], largestMass: Mass): readonly Mass[] {
  const begins = adjustments
    .flatMap((each) => each.when)
    .flatMap((condition) => (condition.when === 'mass' ? [condition.over] : []));
  return [...new Set([...ceilings, ...begins, largestMass])].sort((a, b) => a - b);
}

function largestMasses(limits: readonly Limit[]): readonly number[] {
  return limits.flatMap((limit) => (limit.limit === 'largest-mass' ? [limit.most] : []));
}

function smallestMasses(limits: readonly Limit[]): readonly number[] {
  return limits.flatMap((limit) => (limit.limit === 'smallest-mass' ? [limit.least] : []));
}

function rowsOf(rule: PriceRule): readonly Prices[] {
  switch (rule.rule) {
    case 'weight-bracket':
      return rule.brackets.map((bracket) => bracket.prices);
    case 'flat-fee':
      return rule.fees.map((fee) => fee.prices);
    case 'cubic-box':
    case 'cubic-soft':
      return rule.tiers.map((tier) => tier.prices);
  }
}
