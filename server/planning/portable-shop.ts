import { knownPlaces } from '#config/zones/known-places.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** A shop as it crosses to another thread: data alone. The places of the world are the same on both sides. */
export type PortableShop = Omit<Shop, 'rates'> & { readonly rates: Omit<Shop['rates'], 'places'> };

export function portable({ rates, ...shop }: Shop): PortableShop {
  return { ...shop, rates: { cards: rates.cards } };
}

export function withPlaces(shop: PortableShop): Shop {
  return { ...shop, rates: { ...shop.rates, places: knownPlaces } };
}
