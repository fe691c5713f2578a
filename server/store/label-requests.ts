import type { Selectable } from 'kysely';
import type { StoreOrTransaction } from './open.ts';
import type { Tables } from './schema.ts';
import type { LabelState, LabelType } from '#shared/wire/label.ts';

export type LabelRequestRow = Selectable<Tables['label_request']>;

export interface NewLabelRequest {
  readonly key: string;
  readonly run: string;
  /** of the parcel in its order, from 1 */
  readonly number: number;
  readonly order: string;
  readonly bench: string;
  readonly facts: string;
  readonly body: string;
  readonly state: LabelState;
  readonly why: string;
  readonly tracking?: string;
  readonly now: number;
}

export async function addLabelRequest(store: StoreOrTransaction, request: NewLabelRequest): Promise<void> {
  const { order, now, tracking, ...rest } = request;
  await store
    .insertInto('label_request')
    .values({
      ...rest,
      order_id: order,
      attempts: 0,
      next_at: now,
      answer: '',
      tracking: tracking ?? null,
      label_type: null,
      label: null,
      made_at: now,
      tried_at: null,
      ended_at: tracking === undefined ? null : now,
    })
    .execute();
}

/** Before it was ever sent, a request may still become another. */
export async function changeLabelRequest(
  store: StoreOrTransaction,
  id: number,
  change: Partial<Omit<LabelRequestRow, 'id' | 'key'>>,
): Promise<void> {
  await store.updateTable('label_request').set(change).where('id', '=', id).execute();
}

/** The request that counts for a parcel: the newest. */
export async function labelRequestOf(
  store: StoreOrTransaction,
  run: string,
  number: number,
): Promise<LabelRequestRow | null> {
  const row = await store
    .selectFrom('label_request')
    .selectAll()
    .where('run', '=', run)
    .where('number', '=', number)
    .orderBy('id', 'desc')
    .executeTakeFirst();
  return row ?? null;
}

export async function labelRequestByKey(store: StoreOrTransaction, key: string): Promise<LabelRequestRow | null> {
  const row = await store.selectFrom('label_request').selectAll().where('key', '=', key).executeTakeFirst();
  return row ?? null;
}

/**
 * Requests that are due.
 * @param beyond the farthest wait that there is: what waits longer was put there by a clock that was set back since
 */
export async function dueLabelRequests(
  store: StoreOrTransaction,
  now: number,
  beyond: number,
  most: number,
): Promise<readonly LabelRequestRow[]> {
  return store
    .selectFrom('label_request')
    .selectAll()
    .where('state', '=', 'waiting')
    .where((where) => where.or([where('next_at', '<=', now), where('next_at', '>', beyond)]))
    .orderBy('next_at')
    .limit(most)
    .execute();
}

/** Requests that wait for facts. */
export async function heldLabelRequests(
  store: StoreOrTransaction,
): Promise<readonly { readonly key: string; readonly bench: string }[]> {
  return store.selectFrom('label_request').select(['key', 'bench']).where('state', '=', 'held').execute();
}

/** When the next delivery is due; null when none waits. */
export async function nextLabelRequestAt(store: StoreOrTransaction): Promise<number | null> {
  const row = await store
    .selectFrom('label_request')
    .select((select) => select.fn.min('next_at').as('at'))
    .where('state', '=', 'waiting')
    .executeTakeFirst();
  return row?.at ?? null;
}

/** What a delivery begins with: stored before a byte is sent, so that a server that is killed in it waits as after a failure. */
export async function beginDelivery(
  store: StoreOrTransaction,
  row: Pick<LabelRequestRow, 'id' | 'attempts'>,
  { nextAt, now }: { readonly nextAt: number; readonly now: number },
): Promise<boolean> {
  const result = await store
    .updateTable('label_request')
    .set({ attempts: row.attempts + 1, next_at: nextAt, tried_at: now })
    .where('id', '=', row.id)
    .where('state', '=', 'waiting')
    // Of several servers that see it due, one sends it.
    .where('attempts', '=', row.attempts)
    .executeTakeFirst();
  return result.numUpdatedRows === 1n;
}

/** Of some orders, those with a request that was sent and whose answer may yet come: it would be stored. */
export async function ordersAwaitingAnswers(
  store: StoreOrTransaction,
  orders: readonly string[],
  now: number,
): Promise<readonly string[]> {
  const rows = await store
    .selectFrom('label_request')
    .select('order_id')
    .distinct()
    .where('order_id', 'in', orders)
    .where('state', 'in', ['waiting', 'withdrawn'])
    .where('attempts', '>', 0)
    // What a delivery begins with lies after the last moment at which its answer is waited for.
    .where('next_at', '>', now)
    .execute();
  return rows.map(({ order_id }) => order_id);
}

/** What a run that is over, or a parcel that was labelled otherwise, leaves behind: nothing more is sent. */
export async function withdrawLabelRequests(
  store: StoreOrTransaction,
  run: string,
  now: number,
  number?: number,
): Promise<void> {
  const unfinished = store
    .selectFrom('label_request')
    .select('label_request.id')
    .leftJoin('parcel', (join) =>
      join.onRef('parcel.run', '=', 'label_request.run').onRef('parcel.number', '=', 'label_request.number'),
    )
    .where('label_request.run', '=', run)
    .where('parcel.id', 'is', null);
  const these = number === undefined ? unfinished : unfinished.where('label_request.number', '=', number);
  await store
    .updateTable('label_request')
    .set({ state: 'withdrawn', ended_at: now })
    .where('id', 'in', these)
    .where('state', 'in', ['held', 'waiting', 'dead'])
    .execute();
  await store
    .updateTable('label_request')
    .set({ state: 'unused', ended_at: now })
    .where('id', 'in', these)
    .where('state', '=', 'answered')
    .where('tracking', 'is not', null)
    .execute();
}

/** The number is on another request's label already. */
export async function trackingIsBought(store: StoreOrTransaction, tracking: string, key: string): Promise<boolean> {
  const row = await store
    .selectFrom('label_request')
    .select('id')
    .where('tracking', '=', tracking)
    .where('key', '!=', key)
    .executeTakeFirst();
  return row !== undefined;
}

export const NEEDS_SOMEBODY: readonly LabelState[] = ['dead', 'held', 'unused'];

export type ListedLabelRequest = Omit<LabelRequestRow, 'label' | 'body'>;

/** What needs somebody first, then what waits, then the newest others. */
export async function listLabelRequests(
  store: StoreOrTransaction,
  most: number,
): Promise<readonly ListedLabelRequest[]> {
  return store
    .selectFrom('label_request')
    .select([
      'id',
      'key',
      'run',
      'number',
      'order_id',
      'bench',
      'facts',
      'state',
      'attempts',
      'next_at',
      'why',
      'answer',
      'tracking',
      'label_type',
      'made_at',
      'tried_at',
      'ended_at',
    ])
    .orderBy((order) =>
      order.case().when('state', 'in', NEEDS_SOMEBODY).then(0).when('state', '=', 'waiting').then(1).else(2).end(),
    )
    .orderBy('id', 'desc')
    .limit(most)
    .execute();
}

export async function countLabelRequests(
  store: StoreOrTransaction,
): Promise<Readonly<Partial<Record<LabelState, number>>>> {
  const rows = await store
    .selectFrom('label_request')
    .select((select) => ['state', select.fn.countAll<number>().as('count')])
    .groupBy('state')
    .execute();
  return Object.fromEntries(rows.map(({ state, count }) => [state, count]));
}

export interface AnsweredLabel {
  readonly tracking: string | null;
  readonly type: LabelType | null;
  readonly bytes: Uint8Array | null;
}
