import { badgeDocument } from '#drivers/printer/documents/badge.ts';
import { PAPER_WORDS } from '#drivers/printer/words.ts';
import { queueDocument } from '#server/printing/queue-document.ts';
import type { Store } from '#server/store/open.ts';
import type { BenchConfig, Shop, StaffMember } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';

/** Queues a person's badge at a bench's printer: whoever carries it is that person at every bench of the shop. */
export async function queueBadge(
  store: Store,
  shop: Shop,
  bench: BenchConfig,
  { person, language, now }: { readonly person: StaffMember; readonly language: Language; readonly now: number },
): Promise<void> {
  const { name, badge } = person;
  const title = PAPER_WORDS[language].badgeOf(name);
  await queueDocument(store, bench, badgeDocument(title, { code: badge, name, shop: shop.name }), now);
}
