import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { Kysely, Migrator, SqliteDialect } from 'kysely';
import { expect, it } from 'vitest';
import { first } from '#server/store/migrations/001-first.ts';
import { learning } from '#server/store/migrations/002-learning.ts';
import { weighing } from '#server/store/migrations/003-weighing.ts';
import { openStore } from '#server/store/open.ts';
import { allParcels } from '#server/store/parcels.ts';
import { waitingParcels } from '#server/store/sacks.ts';
import type { Tables } from '#server/store/schema.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

it('a store from before hand-over keeps its parcels, which are taken to have left', async () => {
  const data = temporaryFolder('older');
  const file = new SqliteDatabase(join(data.path, 'benchfold.db'));
  const old = new Kysely<Tables>({ dialect: new SqliteDialect({ database: file }) });
  const migrations = { '001-first': first, '002-learning': learning, '003-weighing': weighing };
  const migrator = new Migrator({ db: old, provider: { getMigrations: () => Promise.resolve(migrations) } });
  expect((await migrator.migrateToLatest()).error).toBeUndefined();
  file
    .prepare('insert into parcel (order_id, run, number, label, body, finished_at) values (?, ?, ?, ?, ?, ?)')
    .run('17', 'r', 1, 'L', '{"order":"17","carrier":"merrow-post"}', 5);
  await old.destroy();
  const store = await openStore(data.path);
  expect(await allParcels(store)).toMatchObject([{ order: '17', label: 'L', finishedAt: 5 }]);
  expect(await waitingParcels(store)).toEqual([]);
  expect(await store.selectFrom('parcel').select(['carrier', 'left_at']).execute()).toEqual([
    { carrier: 'merrow-post', left_at: 5 },
  ]);
  await store.destroy();
  data.remove();
});
