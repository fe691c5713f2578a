import type { Prices } from './market.ts';
import type { Order, PlanRejection, RejectionCode } from './types.ts';
import type { Container } from '#shared/fitting/types.ts';
import { daysLater } from '#shared/rating/day.ts';
import type { Day, PriceSteps } from '#shared/rating/types.ts';

/** What the buyer was promised: which services keep it. */
export interface ServiceWish {
  readonly service: string | null;
  readonly arriveBy: Day | null;
  readonly keeps: (steps: PriceSteps) => boolean;
  /** why a service does not */
  readonly broken: (steps: PriceSteps) => { readonly code: RejectionCode; readonly values: PlanRejection['values'] };
}

/** What every service that may take the pieces in a container, however they are folded, asks at least. */
type LeastIn = (container: Container) => Prices;

/** The most days that a named service takes here; null when its card does not say, undefined when nothing goes by it. */
function mostDaysOf(service: string, containers: readonly Container[], leastIn: LeastIn): number | null | undefined {
  for (const container of containers) {
    const named = leastIn(container).steps.find((steps) => steps.service === service);
    if (named !== undefined) return named.days?.[1] ?? null;
  }
  return undefined;
}

/**
 * The service that the buyer paid for: it and any other that takes no more days keep the promise, so a cheaper one may be
 * used. And the day by which it must be there: a service keeps it that takes at most so many days from the day of posting.
 * A service whose days nobody states keeps no promise but its own.
 *
 * @param day of posting
 * @returns null when nothing was promised, or only a service by which these pieces cannot go on this route and day
 */
export function serviceWish(
  { service, arriveBy }: Pick<Order, 'service' | 'arriveBy'>,
  containers: readonly Container[],
  leastIn: LeastIn,
  day: Day,
): ServiceWish | null {
  const mostDays = service === undefined ? undefined : mostDaysOf(service, containers, leastIn);
  const paid = mostDays === undefined ? null : (service ?? null);
  if (paid === null && arriveBy === undefined) return null;
  const asQuick = ({ service: id, days }: PriceSteps) =>
    paid === null || id === paid || (typeof mostDays === 'number' && days !== undefined && days[1] <= mostDays);
  const inTime = ({ days }: PriceSteps) =>
    arriveBy === undefined || (days !== undefined && daysLater(day, days[1]) <= arriveBy);
  return {
    service: paid,
    arriveBy: arriveBy ?? null,
    keeps: (steps) => asQuick(steps) && inTime(steps),
    broken: (steps) => {
      const days = steps.days === undefined ? '?' : String(steps.days[1]);
      return asQuick(steps)
        ? { code: 'later-than-promised', values: { by: arriveBy ?? '', days } }
        : { code: 'slower-than-paid', values: { paid: paid ?? '', days } };
    },
  };
}
