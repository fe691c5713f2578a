import { sideListDocument, type SideListData } from '#drivers/printer/documents/side-list.ts';
import { PAPER_WORDS } from '#drivers/printer/words.ts';
import { shopDayAndTime } from '#server/office/devices/shop-time.ts';
import type { Clock } from '#server/clock.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { foldedAheadAll } from '#server/store/folded-ahead.ts';
import type { Store } from '#server/store/open.ts';
import { findPieces } from '#server/store/pieces.ts';
import { queueDocument } from '#server/printing/queue-document.ts';
import { unplannedWords } from '#shared/planning/unplanned-words.ts';
import { SET_ASIDE_REASONS } from '#shared/run/types.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import type { SideScreen } from '#shared/side-work/types.ts';
import { sentencesOf } from '#shared/voice/cue.ts';
import type { Language } from '#shared/words/language.ts';

export interface SideListParts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly bench: BenchConfig;
  readonly clock: Clock;
}

/** Queues at a bench's printer the list that its screen shows: the set-aside shelf, or all baskets with their orders. */
export async function queueSideList(
  { store, shops, bench, clock }: SideListParts,
  screen: SideScreen,
  language: Language,
): Promise<void> {
  const shop = shops.current;
  const now = clock.now();
  const entries = screen.at === 'aside' ? asideEntries(screen, language) : await basketEntries(store, shop, language);
  const document = sideListDocument({
    language,
    what: screen.at === 'aside' ? 'aside' : 'folded-ahead',
    shop: shop.name,
    when: shopDayAndTime(now, shop.timeZone),
    entries,
  });
  await queueDocument(store, bench, document, now);
}

function asideEntries({ choices }: Extract<SideScreen, { at: 'aside' }>, language: Language): SideListData['entries'] {
  const words = PAPER_WORDS[language];
  return choices.map(({ order, buyer, reason, place }) => ({
    lies: words.place(place),
    order,
    lines: [buyer, reasonInWords(reason, language)].filter((line) => line !== ''),
  }));
}

/** A reason that a packer chose, or why there is no plan, in words; an older text as it is. */
function reasonInWords(reason: string | null, language: Language): string {
  const known = SET_ASIDE_REASONS.find((each) => each === reason);
  if (known !== undefined) return sentencesOf(language).reasons[known];
  return unplannedWords(reason)?.[language] ?? reason ?? '';
}

async function basketEntries(store: Store, shop: Shop, language: Language): Promise<SideListData['entries']> {
  const words = PAPER_WORDS[language];
  const all = await foldedAheadAll(store);
  const pieces = await findPieces(
    store,
    all.flatMap((each) => each.pieces.map(({ sku }) => sku)),
  );
  return all.map(({ order, basket, pieces: folded }) => ({
    lies: words.basket(basket),
    order,
    lines: folded.map(({ sku, recipe }) => {
      const piece = pieces.get(sku);
      const how = shop.recipes.get(recipe)?.name[language] ?? recipe;
      return [piece?.place, piece?.title ?? sku, how].filter((part) => part !== undefined && part !== '').join(' · ');
    }),
  }));
}
