import { emptySize } from './smallest-filled.ts';
import type { Market } from './market.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { PriceSteps } from '#shared/rating/types.ts';

/** What the buyer paid for, as a preference: which services keep it. */
export interface ServiceWish {
  readonly service: string;
  /** the most days that it takes, when its card says */
  readonly mostDays: number | null;
  readonly keeps: (steps: PriceSteps) => boolean;
}

/**
 * The service named on an order: it and any other that takes no more days keep the promise, so a cheaper one may be used.
 * A service whose days nobody states keeps no promise but its own.
 *
 * @returns null when no container could go by that service on this route and day: then there is nothing to prefer
 */
export function serviceWish(service: string, containers: readonly Container[], market: Market): ServiceWish | null {
  for (const container of containers) {
    const named = market(container, emptySize(container)).steps.find((steps) => steps.service === service);
    if (named === undefined) continue;
    const mostDays = named.days?.[1] ?? null;
    const asQuick = (steps: PriceSteps) => mostDays !== null && steps.days !== undefined && steps.days[1] <= mostDays;
    return { service, mostDays, keeps: (steps) => steps.service === service || asQuick(steps) };
  }
  return null;
}
