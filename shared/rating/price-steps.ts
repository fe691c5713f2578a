import type { Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import { money } from '#shared/units/money.ts';
import type { Settled } from './price.ts';
import { NO_PRICE, priceAt } from './price.ts';
import type { RateBook } from './rate-card.ts';
import { settleAll } from './settle-all.ts';
import type { Day, PriceSteps, RatedParcel, Refusal, Route, RuleKind } from './types.ts';

/**
 * Each service's price as a step function of mass, surcharges and discounts inside it, and why the others refuse the parcel
 * whatever it weighs. Neighbouring brackets of one price are one step.
 * @throws RatingError bad-size or bad-day
 */
export function priceSteps(
  book: RateBook,
  parcel: RatedParcel,
  route: Route,
  day: Day,
): { readonly steps: readonly PriceSteps[]; readonly refused: readonly Refusal[] } {
  const { taking, refused } = settleAll(book, parcel, route, day);
  return { steps: taking.map(({ settled, zone }) => stepsOfService(settled, zone)), refused };
}

/** The step function of one settled service. */
export function stepsOfService(settled: Settled, zone: string): PriceSteps {
  const { card, service, rule } = settled.service;
  const days = service.daysByZone?.[zone] ?? service.days;
  return {
    service: service.id,
    carrier: card.carrier,
    rule: ruleKind(settled),
    zone,
    cardFrom: card.from ?? rule.from ?? '',
    steps: steps(settled),
    ...(days === undefined ? {} : { days }),
  };
}

/** The rule that decides: dimensional where the volume lifts the parcel above the first bracket. */
export function ruleKind(settled: Settled): RuleKind {
  const { rule, ceilings } = settled.service;
  return settled.floor > (ceilings[0] ?? 0) ? 'dimensional' : rule.rule;
}

function steps(settled: Settled): PriceSteps['steps'] {
  const { service } = settled;
  const { currency } = service.card;
  const found: { ceiling: Mass; price: Money }[] = [];
  for (const ceiling of edges(settled)) {
    const minor = priceAt(settled, ceiling);
    if (minor === NO_PRICE) break;
    const last = found.at(-1);
    if (last?.price.minor === minor) last.ceiling = ceiling;
    else found.push({ ceiling, price: money(minor, currency) });
  }
  return found;
}

/** Every mass at which the price may change, the largest mass last. */
function edges(settled: Settled): readonly Mass[] {
  const { ceilings, massEdges, largestMass } = settled.service;
  const below = [...ceilings, ...massEdges].filter((edge) => edge < largestMass);
  return [...new Set(below)].sort((a, b) => a - b).concat(largestMass) as Mass[];
}
