import { labelPaperOf } from './label-queue.ts';
import { addressShown } from '#server/office/addresses/doubtful.ts';
import { labelRequestOf } from '#server/store/label-requests.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { findPieces } from '#server/store/pieces.ts';
import { customsGaps, customsLines, goesAbroad } from '#shared/labels/customs.ts';
import { LABEL_DEFAULTS } from '#shared/labels/settings.ts';
import { allPieces } from '#shared/run/here.ts';
import type { RunState } from '#shared/run/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { BenchLabel, CustomsGap } from '#shared/wire/label.ts';
import type { BenchView } from '#shared/wire/views.ts';

export interface LabelShown extends Pick<BenchView, 'address'> {
  /** of the parcel at hand */
  readonly label?: BenchLabel;
  /** of the whole order, from its beginning on, where it goes abroad */
  readonly customs?: readonly CustomsGap[];
}

/** What a bench shows of labels, customs and a doubtful address; nothing where there is nothing to show. */
export async function labelShown(
  store: StoreOrTransaction,
  shop: Shop,
  state: RunState,
  { now, patienceSeconds }: { readonly now: number; readonly patienceSeconds: number | undefined },
): Promise<LabelShown> {
  const { order, step, run } = state;
  if (order === null || run === null || step.at === 'idle' || step.at === 'done') return {};
  const gaps = goesAbroad(order, shop) ? await gapsOf(store, shop, state) : [];
  const known = { ...(gaps.length === 0 ? {} : { customs: gaps }), ...(await addressShown(store, order)) };
  if (step.at !== 'seal' && step.at !== 'label') return known;
  const request = await labelRequestOf(store, run, state.parcel + 1);
  if (request === null || request.state === 'withdrawn' || request.state === 'unused') return known;
  const { paper, why } = await labelPaperOf(store, request);
  const patience = (patienceSeconds ?? LABEL_DEFAULTS.patienceSeconds) * 1000;
  return {
    ...known,
    label: {
      key: request.key,
      state: standing(request, now - request.made_at >= patience),
      number: request.tracking,
      paper,
      paperWhy: why,
      document: request.label_type,
      missing: request.state === 'held' ? gaps : [],
    },
  };
}

function standing(
  {
    state,
    tracking,
    label_type,
  }: { readonly state: string; readonly tracking: string | null; readonly label_type: string | null },
  late: boolean,
): BenchLabel['state'] {
  if (state === 'held') return 'held';
  if (state === 'dead') return 'given-up';
  if (state === 'waiting') return late ? 'late' : 'coming';
  return tracking === null && label_type === null ? 'passed-on' : 'here';
}

async function gapsOf(store: StoreOrTransaction, shop: Shop, state: RunState): Promise<readonly CustomsGap[]> {
  const planned = allPieces(state);
  const stored = await findPieces(store, [...new Set(planned.map(({ piece }) => piece.sku))]);
  const grams = Object.fromEntries(planned.map(({ piece, mass }) => [piece.sku, mass.mean]));
  const lines = customsLines(
    planned.map(({ piece }) => piece.sku),
    stored,
    shop,
    grams,
  );
  return customsGaps(lines, (sku) => stored.get(sku)?.title ?? sku);
}
