import { factsOf, requestBody, type LabelFacts } from './request-body.ts';
import { weighedAt } from '#server/office/shipments/shipments-csv.ts';
import {
  addLabelRequest,
  changeLabelRequest,
  labelRequestOf,
  type LabelRequestRow,
} from '#server/store/label-requests.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import type { RunState } from '#shared/run/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

export interface KeepParts {
  readonly store: StoreOrTransaction;
  readonly shop: Shop;
  readonly bench: string;
  readonly now: number;
}

/**
 * A parcel's weight and service are settled: its label is asked for, in the transaction that settles them. Weighed anew, it
 * is asked for again only where what is paid, or what it goes in, became another.
 */
export async function keepLabelRequest(parts: KeepParts, before: RunState, after: RunState): Promise<void> {
  const due = weighedAt(after, parts.bench);
  if (due === null || stoodThere(before, after)) return;
  const facts = factsOf(due);
  const last = await labelRequestOf(parts.store, facts.parcel.run, facts.parcel.number);
  if (last === null) return add(parts, facts);
  if (last.state !== 'withdrawn' && isSame(JSON.parse(last.facts) as LabelFacts, facts)) return;
  if (last.state === 'held' || (last.state === 'waiting' && last.attempts === 0)) return rewrite(parts, last, facts);
  await putAway(parts, last);
  const count = Number(/\/(\d+)$/.exec(last.key)?.[1] ?? '1') + 1;
  return add(parts, { ...facts, key: `${facts.key}/${String(count)}`, replaces: last.key });
}

function stoodThere(before: RunState, after: RunState): boolean {
  const { at } = before.step;
  return (at === 'seal' || at === 'label') && before.run === after.run && before.parcel === after.parcel;
}

function isSame({ parcel: one }: LabelFacts, { parcel: other }: LabelFacts): boolean {
  return (
    one.carrier === other.carrier &&
    one.service === other.service &&
    one.container === other.container &&
    one.owed.minor === other.owed.minor &&
    one.pieces.join() === other.pieces.join()
  );
}

async function add(parts: KeepParts, facts: LabelFacts): Promise<void> {
  const { run, number, order } = facts.parcel;
  await addLabelRequest(parts.store, {
    key: facts.key,
    run,
    number,
    order,
    bench: parts.bench,
    facts: JSON.stringify(facts),
    ...(await written(parts, facts)),
    now: parts.now,
  });
}

async function rewrite(parts: KeepParts, last: LabelRequestRow, facts: LabelFacts): Promise<void> {
  const kept = { ...facts, key: last.key, replaces: (JSON.parse(last.facts) as LabelFacts).replaces };
  const change = { facts: JSON.stringify(kept), ...(await written(parts, kept)), next_at: parts.now };
  await changeLabelRequest(parts.store, last.id, change);
}

/** What was sent may be bought, or come back bought later. */
async function putAway({ store, now }: KeepParts, last: LabelRequestRow): Promise<void> {
  const state = last.tracking === null ? 'withdrawn' : 'unused';
  if (last.state !== state) await changeLabelRequest(store, last.id, { state, ended_at: now });
}

/** A request's text and whether it may go out. */
export async function written(
  { store, shop }: Pick<KeepParts, 'store' | 'shop'>,
  facts: LabelFacts,
): Promise<{ readonly body: string; readonly state: 'held' | 'waiting'; readonly why: string }> {
  const { request, gaps } = await requestBody(store, shop, facts);
  const body = JSON.stringify(request);
  return gaps.length === 0 ? { body, state: 'waiting', why: '' } : { body, state: 'held', why: 'customs' };
}
