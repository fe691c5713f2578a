import type { Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import { money } from '#shared/units/money.ts';
import type { ServiceInForce } from './in-force.ts';
import type { Settled } from './price.ts';
import { bracketOf, NO_PRICE, priceAt } from './price.ts';
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

// Without surcharges and discounts the steps depend on the row and the zone alone, and a planner asks for the same again.
const remembered = new WeakMap<ServiceInForce, Map<string, PriceSteps['steps']>>();

function steps(settled: Settled): PriceSteps['steps'] {
  const { service, column, row, floor } = settled;
  if (service.discounts.length > 0 || service.surcharges.length > 0) return madeSteps(settled);
  let known = remembered.get(service);
  if (known === undefined) remembered.set(service, (known = new Map<string, PriceSteps['steps']>()));
  const key = `${String(column)} ${String(row >= 0 ? row : bracketOf(service.ceilings, floor))}`;
  let found = known.get(key);
  if (found === undefined) known.set(key, (found = madeSteps(settled)));
  return found;
}

function madeSteps(settled: Settled): PriceSteps['steps'] {
  const { service } = settled;
  const { currency } = service.card;
  const found: { ceiling: Mass; price: Money }[] = [];
  for (const ceiling of service.massEdges) {
    const minor = priceAt(settled, ceiling);
    if (minor === NO_PRICE) break;
    const last = found.at(-1);
    if (last?.price.minor === minor) last.ceiling = ceiling;
    else found.push({ ceiling, price: money(minor, currency) });
  }
  return found;
}
