import { alternative, together } from './parcel-plan.ts';
import { PlanError } from './plan-error.ts';
import { isEmpty, surveyOrder, type PlanRequest, type Survey } from './survey.ts';
import type { Order, OrderPlan, PlanRejection } from './types.ts';
import { whyNot } from './why-not.ts';
import { bookInForce } from '#shared/rating/in-force.ts';

export type { PlanRequest } from './survey.ts';

/**
 * The plan of least expected cost for an order: over every way to divide its pieces into parcels, every container, every
 * wrap, every fold of each piece and every service.
 *
 * Expected cost is postage over the distribution of the finished mass, materials, labour, and the chance that the parcel
 * does not close times the cost of packing it anew. It is exact up to {@link MOST_EXACT} pieces; above that the plan is
 * marked as not proven, with a lower bound.
 *
 * A service named on the order, or a day by which it must be there, is kept where it can be: it, or a cheaper service that
 * takes no more days. Where the pieces cannot go by such a one, any service may be used and the plan says that the promise
 * is broken; a shop may say that it must be kept. Plans of equal cost prefer fewer parcels, then fewer folding steps, then
 * the smaller container.
 *
 * @throws PlanError no-pieces, too-many-pieces, unknown-piece, unknown-kind; nothing-fits, with what was held against
 *   every container; no-rates when no service at all is sold on the day, which is no fault of the order
 */
export function planOrder(request: PlanRequest): OrderPlan {
  const survey = surveyOrder(request);
  const { order, shop, day } = request;
  if (isEmpty(survey) && bookInForce(shop.rates, day).services.length === 0) {
    throw new PlanError('no-rates', `order ${order.id}: expected a rate card in force on ${day}, found none`);
  }
  return planOf(survey, order);
}

/**
 * The plan that a survey of an order found.
 * @throws PlanError nothing-fits
 */
export function planOf(survey: Survey, order: Order): OrderPlan {
  const { singles, division, leftOut, scene, wish, promise, errand, tried } = survey;
  if (isEmpty(survey)) {
    const reasons = whyNot(tried, null, Infinity, leftOut, scene, wish);
    const message = `order ${order.id}: no container takes its pieces and can be sent to this address`;
    throw new PlanError('nothing-fits', message, reasons);
  }
  const { split } = division;
  const single = split === null ? singles[0] : undefined;
  const chosen = split?.candidates ?? (single === undefined ? [] : [single]);
  const others = singles.filter((candidate) => candidate !== single);
  const plan = together(chosen, errand);
  let reasons: readonly PlanRejection[] | undefined;
  return {
    order: order.id,
    ...plan,
    alternatives: others.map((candidate) => alternative(candidate, errand)),
    // Hundreds of orders are planned at once, and their reasons are mostly never read.
    get whyNot() {
      return (reasons ??= whyNot(tried, single ?? null, plan.cost.total, leftOut, scene, wish));
    },
    ...(promise === undefined ? {} : { promise }),
    ...(division.proven ? { proven: true } : { proven: false, lowerBound: division.lowerBound }),
  };
}
