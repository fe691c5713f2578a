import { benchHandOver } from '#server/office/hand-over/view.ts';
import { shortSupplies, suppliesView } from '#server/office/supplies/overview.ts';
import { packsOf } from '#server/store/packs.ts';
import type { Store } from '#server/store/open.ts';
import { inputTimes } from '#server/store/runs.ts';
import { pauseDue } from '#shared/care/pause.ts';
import { runsOf, streaks } from '#shared/people/progress.ts';
import { peopleRules } from '#shared/people/rules.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { BenchView } from '#shared/wire/views.ts';

/** Before that nothing is looked at for a pause. */
const LONGEST_SHIFT_MS = 12 * 3_600_000;

type BetweenOrders = Pick<BenchView, 'short' | 'sack' | 'overdue' | 'pause' | 'streak'>;

/** What a packer should know who has no order in hand. */
export async function betweenOrders(
  store: Store,
  shop: Shop,
  bench: string,
  packer: string | null,
  now: number,
): Promise<BetweenOrders> {
  const { pause } = peopleRules(shop);
  const times = pause === null ? [] : await inputTimes(store, bench, now - LONGEST_SHIFT_MS);
  const packs = packer === null ? [] : await packsOf(store, packer);
  return {
    streak: streaks(runsOf(packs)).now,
    pause: pauseDue(times, now, pause),
    short: shortSupplies(await suppliesView(store, shop, now)),
    ...(await benchHandOver(store, shop, bench, now)),
  };
}

/** What of a bench's view others than its own run can change. */
export function surroundingsOf({ day, queue, next, short, sack, overdue, pause, helpWanted }: BenchView): string {
  return JSON.stringify([day, queue, next, short, sack, overdue, pause, helpWanted]);
}
