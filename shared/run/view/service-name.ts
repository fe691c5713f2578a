import type { Shop } from '#shared/shop/shop.ts';
import type { Localised } from '#shared/words/language.ts';

/** The service's name on its card; its id when a newer card no longer has it. */
export function serviceName(shop: Shop, id: string): Localised {
  const service = shop.rates.cards.flatMap((card) => card.services).find((each) => each.id === id);
  return service?.name ?? { en: id, es: id };
}
