import type { StoredOrder } from '#server/store/orders.ts';
import type { StoredParcel } from '#server/store/parcels.ts';
import { containerById } from '#shared/planning/preferences.ts';
import { emptySize } from '#shared/planning/smallest-filled.ts';
import { ratedParcel } from '#shared/planning/rated-parcel.ts';
import type { SentParcel } from '#shared/rating/cost-of-change.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { addMass, massFromBase } from '#shared/units/mass.ts';

/**
 * Finished parcels as a carrier saw them, to price them anew. Where the filled size was not kept it is that of the container;
 * a parcel in a container that the shop no longer knows is left out.
 */
export function sentParcels(
  parcels: readonly StoredParcel[],
  orders: ReadonlyMap<string, StoredOrder>,
  shop: Shop,
): readonly SentParcel[] {
  return parcels.flatMap((parcel) => {
    const container = containerById(shop, parcel.container);
    if (container === undefined) return [];
    const to = orders.get(parcel.order)?.order.to;
    const destination = { country: shop.from.country, ...to, postcode: parcel.postcode };
    return [
      {
        service: parcel.service,
        parcel: ratedParcel(container, parcel.filled ?? emptySize(container)),
        mass: addMass(massFromBase(parcel.reading), massFromBase(parcel.toCome)),
        route: { from: shop.from, to: destination },
      },
    ];
  });
}
