import { inRange, normalPostcode } from './postcodes.ts';
import type { DestinationSet } from './rate-card.ts';
import type { Destination, Route } from './types.ts';

/** Where the route ends, with its postcode in normal form; null where only the zone is known. */
export function endOf(route: Route): Destination | null {
  if ('zone' in route) return null;
  return { ...route.to, postcode: normalPostcode(route.to.postcode, route.to.country) };
}

/** Whether the destination (postcode in normal form) is one of the set. */
export function isAmong(destination: Destination, set: DestinationSet): boolean {
  if (set.country !== undefined && set.country !== destination.country) return false;
  return set.postcodes === undefined || set.postcodes.some((range) => inRange(destination.postcode, range));
}
