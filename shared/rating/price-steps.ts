import type { Mass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import { money } from '#shared/units/money.ts';
import { holds } from './adjust.ts';
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

/** Price lists made before: a planner asks for the same again. Each says what its key says, so none goes stale. */
const remembered = new WeakMap<ServiceInForce, Map<string, PriceSteps>>();

/** The step function of one settled service; the very same object wherever everything that it depends on is the same. */
export function stepsOfService(settled: Settled, zone: string): PriceSteps {
  let known = remembered.get(settled.service);
  if (known === undefined) remembered.set(settled.service, (known = new Map<string, PriceSteps>()));
  const key = keyOf(settled, zone);
  let found = known.get(key);
  if (found === undefined) known.set(key, (found = made(settled, zone)));
  return found;
}

/** All that a price over mass depends on: the zone, the row, by which also the rule is known that decides, and which conditions hold. */
function keyOf(settled: Settled, zone: string): string {
  const { service, row, floor, at } = settled;
  let key = `${zone} ${String(row >= 0 ? row : bracketOf(service.ceilings, floor))} `;
  for (const adjustments of [service.discounts, service.surcharges]) {
    for (const { when } of adjustments) {
      // What depends on the mass is in the steps themselves: of no mass, none of it holds.
      for (const condition of when) key += holds(condition, service, NO_MASS, at) ? '1' : '0';
    }
  }
  return key;
}

const NO_MASS = 0 as Mass;

function made(settled: Settled, zone: string): PriceSteps {
  const { card, service } = settled.service;
  const days = service.daysByZone?.[zone] ?? service.days;
  return {
    service: service.id,
    carrier: card.carrier,
    rule: ruleKind(settled),
    zone,
    cardFrom: card.from,
    steps: steps(settled),
    ...(settled.service.smallestMass === 0 ? {} : { least: settled.service.smallestMass }),
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
  for (const ceiling of service.massEdges) {
    if (ceiling < service.smallestMass) continue;
    const minor = priceAt(settled, ceiling);
    if (minor === NO_PRICE) break;
    const last = found.at(-1);
    if (last?.price.minor === minor) last.ceiling = ceiling;
    else found.push({ ceiling, price: money(minor, currency) });
  }
  return found;
}
