import { daysLater } from '#shared/rating/day.ts';
import type { Day } from '#shared/rating/types.ts';

export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

/** When a carrier comes, on the shop's clock; on every day where none is named. */
export interface Collection {
  readonly carrier: string;
  /** "16:30" */
  readonly at: string;
  readonly days?: readonly Weekday[];
}

/** A collection on a certain day of the shop. */
export interface CollectionOnDay {
  readonly carrier: string;
  readonly day: Day;
  readonly at: string;
}

export function weekdayOf(day: Day): Weekday {
  const fromSunday = new Date(`${day}T00:00:00Z`).getUTCDay();
  return WEEKDAYS[(fromSunday + 6) % 7] ?? 'mon';
}

/** The collections of a day, earliest first. */
export function collectionsOn(collections: readonly Collection[], day: Day): readonly CollectionOnDay[] {
  const weekday = weekdayOf(day);
  return collections
    .filter(({ days }) => days === undefined || days.includes(weekday))
    .map(({ carrier, at }) => ({ carrier, day, at }))
    .sort((a, b) => minutes(a.at) - minutes(b.at));
}

function minutes(at: string): number {
  const [hours = 0, rest = 0] = at.split(':').map(Number);
  return hours * 60 + rest;
}

/** A driver who is late is still waited for. */
const WAITED_FOR_MINUTES = 60;
/** Weekdays come again within a week. */
const DAYS_LOOKED_AT = 8;

/**
 * The collection that a carrier's parcels are loaded for now; null where the carrier never comes.
 * @param now the shop's day and its clock, "16:30"
 */
export function nextCollection(
  collections: readonly Collection[],
  carrier: string,
  now: { readonly day: Day; readonly at: string },
): CollectionOnDay | null {
  const own = collections.filter((each) => each.carrier === carrier);
  for (let ahead = 0; ahead < DAYS_LOOKED_AT; ahead++) {
    const found = collectionsOn(own, daysLater(now.day, ahead)).find(
      ({ at }) => ahead > 0 || minutes(at) + WAITED_FOR_MINUTES >= minutes(now.at),
    );
    if (found !== undefined) return found;
  }
  return null;
}
