import { addCosts } from './cost.ts';
import type { Candidate } from './fold-search.ts';
import { toComeOf } from './parcel-mass.ts';
import { ratedParcel } from './rated-parcel.ts';
import type { OrderPlan, ParcelPlan, PlanCost, PlannedPiece } from './types.ts';
import { wrappedFold } from './wrapped-fold.ts';
import { quote } from '#shared/rating/quote.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import type { Day, Offer, PriceSteps, Route } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massFromGrams } from '#shared/units/mass.ts';

/** For whom and when a plan is made. */
export interface Errand {
  readonly shop: Shop;
  readonly route: Route;
  readonly day: Day;
}

function offerFor({ packing, fit, postage }: Candidate, { shop, route, day }: Errand): Offer {
  const parcel = ratedParcel(packing.container, fit.filled);
  const { offers } = quote(shop.rates, parcel, massFromGrams(packing.mass.mean), route, day);
  const { service, carrier } = postage.steps;
  const offer = offers.find((each) => each.service === service && each.carrier === carrier);
  if (offer === undefined) {
    throw new Error(`${service}: the rate card gives prices by mass but none for a mass within them`);
  }
  return offer;
}

/** The prices of every service but the planned one for the same parcel. */
function otherServices({ packing, fit, postage }: Candidate, { shop, route, day }: Errand): readonly PriceSteps[] {
  const parcel = ratedParcel(packing.container, fit.filled);
  const { service, carrier } = postage.steps;
  const all = priceSteps(shop.rates, parcel, route, day).steps;
  return all.filter((steps) => steps.service !== service || steps.carrier !== carrier);
}

/** A candidate with everything that the bench needs, among it the offer and its reasons. */
function parcelPlan(candidate: Candidate, errand: Errand): ParcelPlan {
  const { packing, folds, fit, postage, cost } = candidate;
  const pieces = packing.items.flatMap((item, index): PlannedPiece[] => {
    const fold = folds[index];
    return fold === undefined ? [] : [{ piece: item.piece, fold: wrappedFold(fold, packing.wrap), mass: item.mass }];
  });
  let others: readonly PriceSteps[] | undefined;
  return {
    pieces,
    container: packing.container,
    wrap: packing.wrap,
    fit,
    mass: packing.mass,
    toCome: toComeOf(errand.shop.additions),
    offer: offerFor(candidate, errand),
    prices: postage.steps,
    get otherServices() {
      return (others ??= otherServices(candidate, errand));
    },
    cost,
  };
}

/** A plan that was not chosen; its offer and reasons are made when somebody looks at it. */
export function alternative(candidate: Candidate, errand: Errand): OrderPlan['alternatives'][number] {
  let parcels: readonly ParcelPlan[] | undefined;
  return {
    get parcels() {
      return (parcels ??= [parcelPlan(candidate, errand)]);
    },
    cost: candidate.cost,
  };
}

/** Parcels that together carry an order. */
export function together(
  candidates: readonly Candidate[],
  errand: Errand,
): { readonly parcels: readonly ParcelPlan[]; readonly cost: PlanCost } {
  const cost = addCosts(
    errand.shop.currency,
    candidates.map((candidate) => candidate.cost),
  );
  return { parcels: candidates.map((candidate) => parcelPlan(candidate, errand)), cost };
}
