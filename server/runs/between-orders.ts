import type { WorkedStretch } from './worked-stretch.ts';
import { benchHandOver } from '#server/office/hand-over/view.ts';
import { shortSupplies, suppliesView } from '#server/office/supplies/overview.ts';
import { cleanRunsNow } from '#server/store/packs.ts';
import type { Store } from '#server/store/open.ts';
import { pauseDue } from '#shared/care/pause.ts';
import { peopleRules } from '#shared/people/rules.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { BenchView } from '#shared/wire/views.ts';

type BetweenOrders = Pick<BenchView, 'short' | 'sack' | 'overdue' | 'pause' | 'streak'>;

export interface BenchBetweenOrders {
  readonly bench: string;
  readonly packer: string | null;
  readonly worked: WorkedStretch;
}

/** What a packer should know who has no order in hand. */
export async function betweenOrders(
  store: Store,
  shop: Shop,
  { bench, packer, worked }: BenchBetweenOrders,
  now: number,
): Promise<BetweenOrders> {
  const { pause } = peopleRules(shop);
  return {
    streak: packer === null ? 0 : await cleanRunsNow(store, packer),
    pause: pause === null ? null : pauseDue(await worked.at(now, pause), now, pause),
    short: shortSupplies(await suppliesView(store, shop, now)),
    ...(await benchHandOver(store, shop, bench, now)),
  };
}

/** What of a bench's view others than its own run can change. */
export function surroundingsOf({ day, queue, next, short, sack, overdue, pause, helpWanted }: BenchView): string {
  return JSON.stringify([day, queue, next, short, sack, overdue, pause, helpWanted]);
}
