import { sql } from 'kysely';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const data = temporaryFolder('transactions');
/** As two servers have it. */
let stores: readonly [Store, Store];

beforeAll(async () => {
  const one = await openTestStore(data.path);
  stores = [one, await openTestStore(data.path)];
}, 30_000);

afterAll(async () => {
  for (const store of stores) await store.destroy();
  data.remove();
});

it('what many read and then write, each sees of all the others: nothing is lost, nobody gives up', async () => {
  const [store] = stores;
  const takeNumber = (which: Store, bench: string) =>
    inTransaction(which, async (transaction) => {
      const { last } = await transaction
        .selectFrom('bench_state')
        .select((select) => select.fn.max<number | null>('seq').as('last'))
        .executeTakeFirstOrThrow();
      await transaction
        .insertInto('bench_state')
        .values({ bench, seq: (last ?? 0) + 1, body: '' })
        .execute();
    });
  await Promise.all(Array.from({ length: 30 }, (_, index) => takeNumber(store, `bench ${String(index)}`)));
  const rows = await store.selectFrom('bench_state').select('seq').orderBy('seq').execute();
  expect(rows.map(({ seq }) => seq)).toEqual(rows.map((_, index) => index + 1));
  await sql`delete from bench_state`.execute(store);
});

it('what fails leaves nothing, and its error is told', async () => {
  const [store] = stores;
  const failing = inTransaction(store, async (transaction) => {
    await transaction.insertInto('bench_state').values({ bench: 'x', seq: 1, body: '' }).execute();
    throw new Error('broken');
  });
  await expect(failing).rejects.toThrow('broken');
  const twice = inTransaction(store, async (transaction) => {
    for (let count = 0; count < 2; count++) {
      await transaction.insertInto('bench_state').values({ bench: 'x', seq: 1, body: '' }).execute();
    }
  });
  await expect(twice).rejects.toThrow(/unique/i);
  expect(await store.selectFrom('bench_state').selectAll().execute()).toEqual([]);
});

it('numbers come back as numbers up to 2^53, bytes as bytes, and a text with a NUL in it is looked for in vain', async () => {
  const [store] = stores;
  const large = Number.MAX_SAFE_INTEGER;
  await store
    .insertInto('correction')
    .values({ parcel: 1, bench: 'b', ours: large, carriers: -large, at: 0 })
    .execute();
  expect(await store.selectFrom('correction').selectAll().executeTakeFirst()).toEqual({
    ...{ parcel: 1, bench: 'b', ours: large, carriers: -large, at: 0 },
  });
  const bytes = Uint8Array.from([0, 27, 255, 10]);
  const job = {
    bench: 'b',
    run: null,
    parcel: 0,
    bytes,
    state: 'queued',
    why: '',
    made_at: 0,
    ended_at: null,
  } as const;
  await store.insertInto('print_job').values(job).execute();
  const kept = await store.selectFrom('print_job').select(['bytes', 'title']).executeTakeFirstOrThrow();
  expect(Uint8Array.from(kept.bytes)).toEqual(bytes);
  expect(await store.selectFrom('piece').selectAll().where('sku', '=', 'a\0b').execute()).toEqual([]);
});
