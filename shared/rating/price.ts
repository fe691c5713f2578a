import type { Mass } from '#shared/units/mass.ts';
import type { Circumstances } from './adjust.ts';
import { adjusted } from './adjust.ts';
import { cubicCount, tierOf } from './cubic.ts';
import { isAmong } from './destinations.ts';
import { dimensionalMass } from './dimensional.ts';
import type { ServiceInForce } from './in-force.ts';
import { keepsLimit } from './limit.ts';
import type { Measures } from './measures.ts';
import { NOT_SERVED } from './rate-card.ts';
import type { RatedParcel } from './types.ts';

/**
 * The part of rating that runs for every container x fold x service x mass: plain numbers in, plain numbers out. Reasons are
 * made elsewhere, and only for what somebody asks about.
 */

/** What keeps a parcel from a service whatever its mass. */
export type Obstacle =
  | 'container-type'
  | 'own-packaging'
  | 'only-in-container'
  | 'needs-box'
  | 'needs-soft'
  | 'destination-refused'
  | 'thickness-unknown'
  | 'limit'
  | 'zone-not-on-card'
  | 'beyond-tiers'
  | 'beyond-brackets';

/** A price that there is none of. */
export const NO_PRICE = NOT_SERVED;

/** Column of the zone in the rule's prices, or -1. */
export function zoneColumn(service: ServiceInForce, zone: string): number {
  return service.rule.zones === null ? 0 : service.rule.zones.indexOf(zone);
}

/** Whether packaging that a carrier owns may go by this service: only where the service is made for it. */
function mayUsePackaging(service: ServiceInForce, parcel: RatedParcel): boolean {
  if (parcel.containerOwner === undefined) return true;
  const madeForIt = service.rule.rule === 'flat-fee' || service.service.containers !== undefined;
  return madeForIt && parcel.containerOwner === service.card.carrier;
}

/** The mass that the parcel is billed as at least, for its volume. */
export function massFloor(service: ServiceInForce, measures: Measures): Mass {
  return service.dimensional === null ? (0 as Mass) : dimensionalMass(service.dimensional, measures);
}

/** Row of a rule whose price does not depend on the mass, or -1. */
function rowOf(service: ServiceInForce, parcel: RatedParcel, measures: Measures): number {
  const { rule } = service;
  switch (rule.rule) {
    case 'weight-bracket':
      return -1;
    case 'flat-fee':
      return rule.fees.findIndex((fee) => fee.container === parcel.container);
    case 'cubic-box':
    case 'cubic-soft':
      return tierOf(service.tiers, cubicCount(rule, measures));
  }
}

/** The lowest bracket whose ceiling is not below the mass: a mass on a ceiling belongs to it. */
export function bracketOf(ceilings: readonly number[], mass: number): number {
  let low = 0;
  let high = ceilings.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (mass <= (ceilings[middle] ?? 0)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** A parcel on a service with everything but the mass settled. */
export interface Settled {
  readonly service: ServiceInForce;
  readonly column: number;
  /** row of the prices, or -1 where the mass decides it */
  readonly row: number;
  readonly floor: Mass;
  readonly at: Circumstances;
}

/** Settles a parcel on a service, or names the first thing that keeps it from the service at any mass. */
export function settle(service: ServiceInForce, parcel: RatedParcel, at: Circumstances): Settled | Obstacle {
  const { rule } = service;
  const { measures, to } = at;
  const types = service.service.containerTypes;
  const row = rowOf(service, parcel, measures);
  if (rule.rule === 'flat-fee' && row < 0) return 'only-in-container';
  if (service.service.containers?.includes(parcel.container ?? '') === false) return 'only-in-container';
  if (!mayUsePackaging(service, parcel)) return 'own-packaging';
  if (types !== undefined && parcel.containerType !== undefined && !types.includes(parcel.containerType)) {
    return 'container-type';
  }
  if (rule.rule === 'cubic-box' && measures.form !== 'box') return 'needs-box';
  if (rule.rule === 'cubic-soft' && measures.form !== 'soft') return 'needs-soft';
  if (to !== null && service.service.refuses.some((set) => isAmong(to, set))) return 'destination-refused';
  if (service.dimensional !== null && measures.shortest === 0) return 'thickness-unknown';
  for (const limit of service.sizeLimits) {
    if (!keepsLimit(limit, measures, service.rounding)) return 'limit';
  }
  const column = zoneColumn(service, at.zone);
  if (column < 0) return 'zone-not-on-card';
  if (rule.rule !== 'weight-bracket' && row < 0) return 'beyond-tiers';
  const floor = massFloor(service, measures);
  if (floor > (service.zoneEnds?.[column] ?? service.ceilings.at(-1) ?? floor)) return 'beyond-brackets';
  return { service, column, row, floor, at };
}

/** The rule's own price at a mass, in minor units, before discounts and surcharges; NO_PRICE above the largest mass or below the smallest. */
export function basePrice(settled: Settled, mass: Mass): number {
  const { service, row, floor, column } = settled;
  if (mass > service.largestMass || mass < service.smallestMass) return NO_PRICE;
  const prices = service.rows[row >= 0 ? row : bracketOf(service.ceilings, mass > floor ? mass : floor)];
  return prices?.[column] ?? NO_PRICE;
}

/** The price at a mass in minor units, or NO_PRICE. */
export function priceAt(settled: Settled, mass: Mass): number {
  const base = basePrice(settled, mass);
  return base === NO_PRICE ? NO_PRICE : adjusted(settled.service, base, mass, settled.at);
}
