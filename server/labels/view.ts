import { labelPaperOf } from './label-queue.ts';
import type { LabelDesk } from './label-desk.ts';
import type { LabelFacts } from './request-body.ts';
import { findPieces } from '#server/store/pieces.ts';
import { countLabelRequests, listLabelRequests, type ListedLabelRequest } from '#server/store/label-requests.ts';
import { openOrders } from '#server/store/orders.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { customsGaps, customsLines, goesAbroad } from '#shared/labels/customs.ts';
import { SIMULATED } from '#shared/labels/settings.ts';
import { serviceName } from '#shared/run/view/service-name.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { LABEL_STATES, type CustomsRow, type LabelRow, type LabelState, type LabelsView } from '#shared/wire/label.ts';

const MOST_SHOWN = 300;
const MOST_ORDERS = 1000;

/** Everything that the office shows of labels and customs. */
export async function labelsView(
  store: StoreOrTransaction,
  shop: Shop,
  { settings, trouble }: Pick<LabelDesk, 'settings' | 'trouble'>,
  now: number,
): Promise<LabelsView> {
  const counted = await countLabelRequests(store);
  const listed = await listLabelRequests(store, MOST_SHOWN);
  const to = settings === null ? 'none' : settings.url === SIMULATED ? 'simulated' : 'receiver';
  return {
    now,
    timeZone: shop.timeZone,
    to,
    url: to === 'receiver' ? (settings?.url ?? null) : null,
    trouble,
    counts: Object.fromEntries(LABEL_STATES.map((state) => [state, counted[state] ?? 0])) as Record<LabelState, number>,
    rows: await Promise.all(listed.map((row) => rowOf(store, shop, row))),
    customs: await customsRows(store, shop),
  };
}

async function rowOf(store: StoreOrTransaction, shop: Shop, row: ListedLabelRequest): Promise<LabelRow> {
  const { parcel } = JSON.parse(row.facts) as LabelFacts;
  const { paper } = await labelPaperOf(store, row);
  return {
    key: row.key,
    order: row.order_id,
    number: row.number,
    of: parcel.of,
    bench: row.bench,
    carrier: parcel.carrier,
    service: serviceName(shop, parcel.service),
    state: row.state,
    attempts: row.attempts,
    madeAt: row.made_at,
    triedAt: row.tried_at,
    nextAt: row.state === 'waiting' ? row.next_at : null,
    endedAt: row.ended_at,
    why: row.why,
    answer: row.answer,
    tracking: row.tracking,
    label: row.label_type,
    paper,
  };
}

/** Open orders that go abroad and lack what the customs must be told. */
async function customsRows(store: StoreOrTransaction, shop: Shop): Promise<readonly CustomsRow[]> {
  const abroad = (await openOrders(store, MOST_ORDERS)).filter(({ order }) => goesAbroad(order, shop));
  const pieces = await findPieces(store, [
    ...new Set(abroad.flatMap(({ order }) => order.pieces.map(({ sku }) => sku))),
  ]);
  return abroad.flatMap(({ order }) => {
    const skus = order.pieces.flatMap(({ sku, count }) => Array.from({ length: count }, () => sku));
    const gaps = customsGaps(customsLines(skus, pieces, shop), (sku) => pieces.get(sku)?.title ?? sku);
    return gaps.length === 0 ? [] : [{ order: order.id, country: order.to.country, gaps }];
  });
}
