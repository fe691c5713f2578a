import type { Shop } from '#shared/shop/shop.ts';
import type { Localised } from '#shared/words/language.ts';

/** What a container is called, a double bag by both its pouches; its id when the shop has it no more. */
export function containerName(shop: Shop, id: string): Localised {
  const known = shop.containers.get(id)?.name;
  if (known !== undefined) return known;
  const [outer, inner] = id.split('+').map((part) => shop.containers.get(part)?.name);
  if (outer === undefined || inner === undefined) return { en: id, es: id };
  return { en: `${inner.en} in ${outer.en}`, es: `${inner.es} dentro de ${outer.es}` };
}

/** Somebody's name; the id when the shop knows them no more. */
export function personName(shop: Shop, id: string | null): string | null {
  return id === null ? null : (shop.staff.find((each) => each.id === id)?.name ?? id);
}
