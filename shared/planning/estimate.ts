import type { ZoneWeight } from './destination-zones.ts';
import { warningsFor, type EstimateWarning } from './estimate-warnings.ts';
import { isPlanError, type PlanError } from './plan-error.ts';
import { planOrder } from './plan-order.ts';
import type { Order, ParcelPlan } from './types.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Day } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massFromBase, massFromDecimal, massFromGrams, type Mass, type MassUnit } from '#shared/units/mass.ts';
import { money, type Money } from '#shared/units/money.ts';

/** What sending a piece to one zone comes to. */
export interface ZoneEstimate extends ZoneWeight {
  readonly parcel: ParcelPlan;
  /** postage, materials, labour and risk, up to the next whole minor unit */
  readonly cost: Money;
}

/** What can be promised when a piece is put up for sale, before anybody has bought it. */
export interface Estimate {
  readonly piece: Piece;
  /** of the zones by weight: the container and the service that most of them have */
  readonly container: ParcelPlan['container'];
  readonly service: string;
  /** finished parcel as most zones have it, in grams */
  readonly mass: ParcelPlan['mass'];
  /** to write into the listing: 19 of 20 such parcels weigh no more */
  readonly declared: Mass;
  /** zones that can be sent to, cheapest first */
  readonly zones: readonly [ZoneEstimate, ...ZoneEstimate[]];
  /** ids of zones that nothing can be sent to */
  readonly unserved: readonly string[];
  /** covers the cost of sending to the asked share of destinations, those unserved left out */
  readonly charge: Money;
  readonly warnings: readonly EstimateWarning[];
}

export interface EstimateRequest {
  readonly piece: Piece;
  readonly shop: Shop;
  readonly day: Day;
  /** at least one, of weight above 0 */
  readonly zones: readonly ZoneWeight[];
  /** part of the destinations that the charge is to cover, 0 to 1 */
  readonly share?: number;
}

export const USUAL_SHARE = 0.9;

/** One-sided 95 % of a normal distribution, in standard deviations. */
const NINETEEN_OF_TWENTY = 1.645;

/** A listing names a weight in whole ones of these. */
const DECLARED_IN: Readonly<Record<MassUnit, Mass>> = {
  oz: massFromDecimal('1', 'oz'),
  lb: massFromDecimal('1', 'oz'),
  g: massFromDecimal('10', 'g'),
  kg: massFromDecimal('10', 'g'),
};

function declaredMass({ mean, sd }: ParcelPlan['mass'], unit: MassUnit): Mass {
  const step = DECLARED_IN[unit];
  return massFromBase(Math.ceil(massFromGrams(mean + NINETEEN_OF_TWENTY * sd) / step) * step);
}

/** The thing with the most weight; of equals the one of the cheaper zone. */
function mostOf<Thing>(zones: readonly ZoneEstimate[], of: (zone: ZoneEstimate) => Thing, first: Thing): Thing {
  const weights = new Map<Thing, number>();
  for (const zone of zones) weights.set(of(zone), (weights.get(of(zone)) ?? 0) + zone.weight);
  let most = { thing: first, weight: 0 };
  for (const [thing, weight] of weights) if (weight > most.weight) most = { thing, weight };
  return most.thing;
}

/** The least cost that at least so large a part of the zones, by weight, does not exceed. */
function covering(zones: Estimate['zones'], share: number): Money {
  const all = zones.reduce((sum, { weight }) => sum + weight, 0);
  let [{ cost }] = zones;
  let covered = 0;
  for (const zone of zones) {
    ({ cost } = zone);
    covered += zone.weight;
    // A table of decimals such as 0.1 does not add up to whole parts exactly.
    if (covered >= all * share - all * 1e-9) break;
  }
  return cost;
}

function orderFor({ sku }: Piece, shop: Shop): Order {
  return { id: sku, pieces: [{ sku, count: 1 }], buyer: '', address: [], to: shop.from, shipBy: '' };
}

/**
 * What to promise for one piece at listing, planned for every zone that it may go to.
 * @throws PlanError unknown-kind; no-rates; nothing-fits when it can be sent to none of the zones
 */
export function estimatePiece({ piece, shop, day, zones, share = USUAL_SHARE }: EstimateRequest): Estimate {
  const request = { order: orderFor(piece, shop), pieces: new Map([[piece.sku, piece]]), shop, day };
  const served: ZoneEstimate[] = [];
  const unserved: string[] = [];
  let why: PlanError | null = null;
  for (const { zone, weight } of zones) {
    try {
      const { parcels, cost } = planOrder({ ...request, route: { zone } });
      const [parcel] = parcels;
      if (parcel === undefined) continue;
      served.push({ zone, weight, parcel, cost: money(Math.ceil(cost.total - 1e-6), cost.currency) });
    } catch (error) {
      if (!isPlanError(error, 'nothing-fits')) throw error;
      why ??= error;
      unserved.push(zone);
    }
  }
  const [cheapest, ...others] = served.sort((a, b) => a.cost.minor - b.cost.minor);
  if (cheapest === undefined) throw why ?? new RangeError('estimate: expected at least one zone, found none');
  const all = [cheapest, ...others] as const;
  const container = mostOf(all, ({ parcel }) => parcel.container, cheapest.parcel.container);
  const inIt = all.filter(({ parcel }) => parcel.container === container);
  const service = mostOf(inIt, ({ parcel }) => parcel.offer.service, cheapest.parcel.offer.service);
  const promised = inIt.find(({ parcel }) => parcel.offer.service === service) ?? cheapest;
  return {
    piece,
    container,
    service,
    mass: promised.parcel.mass,
    declared: declaredMass(promised.parcel.mass, shop.units.mass),
    zones: all,
    unserved,
    charge: covering(all, share),
    warnings: warningsFor(
      promised.parcel,
      all.map(({ parcel }) => parcel),
      unserved,
      shop,
    ),
  };
}
