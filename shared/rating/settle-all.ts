import type { RateBook } from './rate-card.ts';
import type { ServiceInForce } from './in-force.ts';
import { bookInForce } from './in-force.ts';
import type { Measures } from './measures.ts';
import { measure } from './measures.ts';
import type { Settled } from './price.ts';
import { settle } from './price.ts';
import { absentRefusal, obstacleReason } from './refusals.ts';
import { endOf } from './destinations.ts';
import type { Day, RatedParcel, Reason, Refusal, Route } from './types.ts';
import { zoneOn } from './route-zones.ts';

/** A parcel against every service of a day: those that take it, and why the others do not. */
export interface SettledAll {
  readonly measures: Measures;
  readonly taking: readonly { readonly settled: Settled; readonly zone: string; readonly zoneHow: Reason }[];
  readonly refused: readonly Refusal[];
}

/** @throws RatingError bad-size or bad-day */
export function settleAll(book: RateBook, parcel: RatedParcel, route: Route, day: Day): SettledAll {
  const measures = measure(parcel);
  const inForce = bookInForce(book, day);
  const to = endOf(route);
  const taking: SettledAll['taking'][number][] = [];
  const refused: Refusal[] = [];
  // The planner asks for prices far more often than anybody asks why not, so a reason is made when it is read.
  const refuse = (service: ServiceInForce, why: () => Reason): void => {
    let made: Reason | undefined;
    refused.push({
      service: service.service.id,
      carrier: service.card.carrier,
      get why() {
        return (made ??= why());
      },
    });
  };
  for (const service of inForce.services) {
    const answer = zoneOn(service.card, route, day, book);
    if (answer.zone === null) {
      const { why } = answer;
      refuse(service, () => why);
      continue;
    }
    const { zone, how } = answer;
    const settled = settle(service, parcel, { measures, zone, to });
    if (typeof settled === 'string')
      refuse(service, () => obstacleReason(settled, service, parcel, measures, zone, to));
    else taking.push({ settled, zone, zoneHow: how });
  }
  for (const { card, service } of inForce.absent) refused.push(absentRefusal(card, service, day));
  return { measures, taking, refused };
}
