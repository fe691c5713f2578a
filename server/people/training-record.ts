import { trainingCertificateDocument } from '#drivers/printer/documents/records.ts';
import { nameOf, skillsView } from './progress-view.ts';
import type { Store } from '#server/store/open.ts';
import { queueDocument } from '#server/printing/queue-document.ts';
import { calendarDay } from '#server/calendar.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';

/** Queues a person's training record at a bench's printer: every skill that was signed off, by whom and when. */
export async function queueTrainingRecord(
  store: Store,
  shop: Shop,
  bench: BenchConfig,
  asked: { readonly person: string; readonly language: Language; readonly now: number },
): Promise<void> {
  const { person, language, now } = asked;
  const signed = (await skillsView(store, shop, person)).flatMap(({ name, signed }) =>
    signed === null ? [] : [{ name: name[language], by: signed.by, day: calendarDay(signed.at, shop.timeZone) }],
  );
  const document = trainingCertificateDocument({
    language,
    shop: shop.name,
    name: nameOf(shop, person),
    day: calendarDay(now, shop.timeZone),
    learned: signed.map(({ name, by, day }) => `${name} (${day}, ${by})`),
    supervisor: [...new Set(signed.map(({ by }) => by))].join(', '),
  });
  await queueDocument(store, bench, document, now);
}
