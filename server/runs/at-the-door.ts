import { meaningOf } from './meaning.ts';
import type { StationParts } from './station-parts.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** What the scan of a person's badge means; null where nobody of that id works here. */
export function badgeOf(shop: Shop, person: string): Extract<ScanMeaning, { readonly means: 'staff' }> | null {
  const found = shop.staff.find(({ id }) => id === person);
  return found === undefined ? null : { means: 'staff', text: found.badge, staff: person };
}

/** A scan at a bench where nobody is signed in: a badge signs its person in at the bench's screens, all else is left. */
export async function scannedAtDoor(
  { store, shops, bench, door, log }: Pick<StationParts, 'store' | 'shops' | 'bench' | 'door' | 'log'>,
  text: string,
  signOn: (person: string) => Promise<unknown>,
): Promise<void> {
  try {
    const meaning = await meaningOf(text, store, shops.current);
    if (meaning.means === 'unknown') door?.strange(bench.id, text);
    if (meaning.means !== 'staff' || door?.takesBadges(bench.id) === false) return;
    await signOn(meaning.staff);
    await door?.badge(bench.id, meaning.staff);
  } catch (error) {
    log.error({ error, bench: bench.id }, 'a badge was not taken');
  }
}
