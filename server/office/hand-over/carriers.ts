import { wallTimeAt } from '../local-time.ts';
import { calendarDay } from '#server/calendar.ts';
import { nextCollection, type CollectionOnDay } from '#shared/hand-over/collections.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Localised } from '#shared/words/language.ts';

/** What a carrier is called; its id when no card has it any more. */
export function carrierName(shop: Shop, carrier: string): Localised {
  const card = shop.rates.cards.find((each) => each.carrier === carrier);
  return card?.name ?? { en: carrier, es: carrier };
}

/** The collection that a carrier's parcels are loaded for at an instant; null where it never comes. */
export function collectionNow(shop: Shop, carrier: string, now: number): CollectionOnDay | null {
  const { hour, minute } = wallTimeAt(now, shop.timeZone);
  const at = `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
  return nextCollection(shop.collections, carrier, { day: calendarDay(now, shop.timeZone), at });
}
