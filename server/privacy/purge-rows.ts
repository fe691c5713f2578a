import { coarse, scrubbed, type Identity } from './scrub.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';

/** Shorter texts are found in what has nothing to do with the buyer. */
const SHORTEST_SOUGHT = 4;

const scrubbedJson =
  (identity: Identity) =>
  (json: string): string =>
    JSON.stringify(scrubbed(JSON.parse(json), identity));

/** Out of everything that is kept of one order. */
export async function purgeOrder(store: StoreOrTransaction, id: string, identity: Identity): Promise<void> {
  const text = scrubbedJson(identity);
  const ids = [id];
  for (const { id, body, reason } of await store
    .selectFrom('shop_order')
    .select(['id', 'body', 'reason'])
    .where('id', 'in', ids)
    .execute()) {
    await store
      .updateTable('shop_order')
      .set({ body: text(body), reason: reason === null ? null : String(scrubbed(reason, identity)) })
      .where('id', '=', id)
      .execute();
  }
  await store.deleteFrom('address_checked').where('order_id', 'in', ids).execute();
  const runs = (await store.selectFrom('run').select('id').where('order_id', 'in', ids).execute()).map(({ id }) => id);
  if (runs.length > 0) await purgeRuns(store, runs, text);
  for (const { id, body } of await store
    .selectFrom('parcel')
    .select(['id', 'body'])
    .where('order_id', 'in', ids)
    .execute()) {
    const parcel = JSON.parse(text(body)) as { postcode?: string };
    const coarser = JSON.stringify({ ...parcel, postcode: coarse(parcel.postcode ?? '') });
    await store.updateTable('parcel').set({ body: coarser, label: null }).where('id', '=', id).execute();
  }
  for (const { id, facts, body, state } of await store
    .selectFrom('label_request')
    .select(['id', 'facts', 'body', 'state'])
    .where('order_id', 'in', ids)
    .execute()) {
    // Nothing is asked for any more in the name of nobody.
    const ended = state === 'waiting' || state === 'held' ? 'withdrawn' : state;
    await store
      .updateTable('label_request')
      .set({ facts: text(facts), body: text(body), state: ended, answer: '', tracking: null, label: null })
      .where('id', '=', id)
      .execute();
  }
}

async function purgeRuns(
  store: StoreOrTransaction,
  runs: readonly string[],
  text: (json: string) => string,
): Promise<void> {
  const inputs = await store.selectFrom('input').select(['bench', 'seq', 'body']).where('run', 'in', runs).execute();
  for (const { bench, seq, body } of inputs) {
    const told = text(body);
    if (told === body) continue;
    await store.updateTable('input').set({ body: told }).where('bench', '=', bench).where('seq', '=', seq).execute();
  }
  await store
    .updateTable('print_job')
    .set({ bytes: Buffer.alloc(0), title: '', replaced: '', why: '' })
    .where('run', 'in', runs)
    .where('state', 'not in', ['queued', 'sending'])
    .execute();
}

/** A bench shows the order that it has packed last until it takes another. */
export async function purgeBenches(store: StoreOrTransaction, identity: Identity): Promise<void> {
  const text = scrubbedJson(identity);
  for (const { bench, body } of await store.selectFrom('bench_state').select(['bench', 'body']).execute()) {
    const told = text(body);
    if (told !== body) await store.updateTable('bench_state').set({ body: told }).where('bench', '=', bench).execute();
  }
}

/**
 * Out of lists and sheets that name a label or a buyer among others, so many after one of a number.
 * @returns the number of the last that was looked at; null where there are no more
 */
export async function purgeOtherPrints(
  store: StoreOrTransaction,
  { texts }: Identity,
  { after, most }: { readonly after: number; readonly most: number },
): Promise<number | null> {
  const sought = texts.filter((each) => each.length >= SHORTEST_SOUGHT);
  const prints = await store
    .selectFrom('print_job')
    .select(['id', 'bytes'])
    .where('run', 'is', null)
    .where('id', '>', after)
    .orderBy('id')
    .limit(most)
    .execute();
  for (const { id, bytes } of prints) {
    const told = Buffer.from(bytes).toString('latin1');
    if (!sought.some((each) => told.includes(each))) continue;
    await store
      .updateTable('print_job')
      .set({ bytes: Buffer.alloc(0), title: '' })
      .where('id', '=', id)
      .execute();
  }
  return prints.at(-1)?.id ?? null;
}
