import { endOf, isAmong } from './destinations.ts';
import type { DestinationSet, RateBook, RateCard } from './rate-card.ts';
import type { Day, Route } from './types.ts';
import { zoneOf, type ZoneAnswer } from './zones.ts';

/** The zones that one route has on the cards of a book. */
interface Known {
  readonly book: RateBook;
  readonly day: Day;
  readonly zones: Map<RateCard, ZoneAnswer>;
}

/** By the route itself: a planner prices hundreds of sizes on one, and a distance takes longer than a price. */
const remembered = new WeakMap<Route, Known>();

/** {@link zoneOf}, worked out once for a card while the same route object asks. */
export function zoneOn(card: RateCard, route: Route, day: Day, book: RateBook): ZoneAnswer {
  let known = remembered.get(route);
  if (known?.book !== book || known.day !== day) {
    known = { book, day, zones: new Map() };
    remembered.set(route, known);
  }
  let answer = known.zones.get(card);
  if (answer === undefined) known.zones.set(card, (answer = zoneOf(card, route, day, book.places)));
  return answer;
}

/** Every set of destinations that a price or a refusal of the book depends on. */
function destinationSets(book: RateBook): readonly DestinationSet[] {
  return book.cards
    .flatMap((card) => card.services)
    .flatMap(({ refuses, discounts, surcharges }) => [
      ...refuses,
      ...[...discounts, ...surcharges].flatMap(({ when }) =>
        when.flatMap((condition) => (condition.when === 'destination' ? condition.to : [])),
      ),
    ]);
}

/**
 * What the prices of a route depend on, as a key: its zone on every card, which of the book's sets of destinations it
 * ends in, and whether it ends at a dwelling. Routes with one key pay the same on the day for every parcel.
 */
export function routeKey(book: RateBook, route: Route, day: Day): string {
  if ('zone' in route) return `zone ${route.zone}`;
  const to = endOf(route);
  const zones = book.cards.map((card) => zoneOn(card, route, day, book).zone);
  const within = to === null ? [] : destinationSets(book).map((set) => isAmong(to, set));
  return JSON.stringify([zones, within, to?.residential === true]);
}
