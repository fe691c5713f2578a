import type { Mass } from '#shared/units/mass.ts';
import type { Adjustment, Condition } from './adjustment.ts';
import { amountOf, baseOf } from './adjustment.ts';
import { isAmong } from './destinations.ts';
import type { ServiceInForce } from './in-force.ts';
import { measuredSide, sideTooSmall } from './limit.ts';
import type { Measures } from './measures.ts';
import type { Destination } from './types.ts';
import { cubesWithin } from './volume.ts';

/** What a condition looks at besides the mass. */
export interface Circumstances {
  readonly measures: Measures;
  readonly zone: string;
  /** postcode in normal form; null where only the zone is known */
  readonly to: Destination | null;
}

/**
 * Called once for each adjustment that applies, with the minor units it puts on (or, of a discount, takes off) and those
 * that a per cent is reckoned of.
 */
export type Told = (adjustment: Adjustment, minor: number, base: number) => void;

/** The final price of a base price: discounts off, then surcharges on, in the card's order. */
export function adjusted(service: ServiceInForce, base: number, mass: Mass, at: Circumstances, told?: Told): number {
  if (service.discounts.length === 0 && service.surcharges.length === 0) return base;
  let price = base;
  for (const discount of service.discounts) {
    if (!applies(discount, service, mass, at)) continue;
    if (!largestOfGroup(discount, service.discounts, service, mass, at, price, price)) continue;
    // A discount never turns a price into a payment.
    const off = Math.min(price, amountOf(discount.amount, price, price));
    told?.(discount, off, price);
    price -= off;
  }
  let total = price;
  for (const surcharge of service.surcharges) {
    if (!applies(surcharge, service, mass, at)) continue;
    if (!largestOfGroup(surcharge, service.surcharges, service, mass, at, price, total)) continue;
    const on = amountOf(surcharge.amount, price, total);
    told?.(surcharge, on, baseOf(surcharge.amount, price, total));
    total += on;
  }
  return total;
}

/** Among those of its group that apply, is this the largest (the first of equals)? */
function largestOfGroup(
  one: Adjustment,
  all: readonly Adjustment[],
  service: ServiceInForce,
  mass: Mass,
  at: Circumstances,
  price: number,
  total: number,
): boolean {
  if (one.group === undefined) return true;
  const mine = amountOf(one.amount, price, total);
  let before = true;
  for (const other of all) {
    if (other === one) before = false;
    else if (other.group === one.group && applies(other, service, mass, at)) {
      const theirs = amountOf(other.amount, price, total);
      if (theirs > mine || (theirs === mine && before)) return false;
    }
  }
  return true;
}

function applies(adjustment: Adjustment, service: ServiceInForce, mass: Mass, at: Circumstances): boolean {
  for (const condition of adjustment.when) {
    if (holds(condition, service, mass, at)) return true;
  }
  return false;
}

/** Whether a condition holds for a mass. */
export function holds(condition: Condition, service: ServiceInForce, mass: Mass, at: Circumstances): boolean {
  const { measures, to } = at;
  switch (condition.when) {
    case 'always':
      return true;
    case 'longest-side':
    case 'second-side':
    case 'shortest-side':
    case 'length-and-girth': {
      const { when, over, measured } = condition;
      return measuredSide({ limit: when, most: over, measured }, measures, service.rounding) > over;
    }
    case 'volume': {
      const volume = BigInt(measures.longest) * BigInt(measures.middle) * BigInt(measures.shortest);
      return volume > cubesWithin(condition.over, 1);
    }
    case 'mass':
      return mass > condition.over;
    case 'smaller-than':
      return sideTooSmall(condition.least, measures) !== -1;
    case 'form':
      return measures.form === condition.form;
    case 'residential':
      return to?.residential === true;
    case 'destination':
      return to !== null && condition.to.some((set) => isAmong(to, set));
    case 'zone':
      return condition.zones.includes(at.zone);
  }
}
