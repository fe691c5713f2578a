import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BackupDesk } from '#server/backup/backup-desk.ts';
import { contentsOf } from '#server/backup/contents.ts';
import { restore } from '#server/backup/restore.ts';
import { seedDemo } from '#server/office/demo.ts';
import { ShopHolder } from '#server/shop-holder.ts';
import { openStore, type Store } from '#server/store/open.ts';
import { openOrders, saveOrder } from '#server/store/orders.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const HOUR_MS = 3_600_000;
const folder = temporaryFolder('schedule');
const data = join(folder.path, 'data');
const disk = join(folder.path, 'other-disk');
let store: Store;
let shops: ShopHolder;
let now = Date.parse('2026-11-25T06:00:00Z');
const clock = { now: () => now };

beforeAll(async () => {
  const config = copyOfConfig();
  edit(config, 'shop.yaml', /^# backups: .*$/m, `backups: { every: 4, newest: 2, days: 0, weeks: 0, folder: ${disk} }`);
  shops = new ShopHolder(config);
  store = await openStore(data);
  await seedDemo(config, shops.current, store, clock);
});
afterAll(async () => {
  await store.destroy();
  folder.remove();
  removeConfigFolders();
});

const contentsIn = (where: string) => {
  const file = new SqliteDatabase(join(where, 'benchfold.db'), { readonly: true });
  const contents = contentsOf(file);
  file.close();
  return contents;
};

it('a shop backs itself up each time its hours are over, and what it made restores as it was then', async () => {
  const looks = { first: 0, every: 20 };
  const desk = new BackupDesk({ data, inFolder: true, shops, clock, log: pino({ level: 'silent' }), looks });
  const made = () => desk.view().backups.map(({ at }) => at);
  const first = now;
  await expect.poll(made).toEqual([first]);
  const asItWas = contentsIn(data);

  const [order] = await openOrders(store, 1);
  if (order === undefined) throw new Error('no order');
  await saveOrder(store, { ...order.order, id: 'LATER' }, now);
  // Neither before its time, nor because the clock was set back.
  now += 4 * HOUR_MS - 1;
  await new Promise((done) => setTimeout(done, 100));
  expect(made()).toEqual([first]);
  now = first + 4 * HOUR_MS;
  await expect.poll(made).toEqual([now, first]);

  const [newest, oldest] = desk.view().backups;
  restore({ from: oldest?.path ?? '', to: join(folder.path, 'then'), replace: false, now });
  expect(contentsIn(join(folder.path, 'then'))).toEqual(asItWas);
  restore({ from: newest?.path ?? '', to: join(folder.path, 'later'), replace: false, now });
  expect(contentsIn(join(folder.path, 'later'))).toEqual(contentsIn(data));
  expect(contentsIn(data)).not.toEqual(asItWas);

  // The other disk is gone: that is told, and it is tried again an hour later.
  rmSync(disk, { recursive: true });
  writeFileSync(disk, 'no folder');
  now += 4 * HOUR_MS;
  await expect.poll(() => desk.view().failed?.at).toBe(now);
  await expect.poll(() => desk.view().old).toBe(true);
  rmSync(disk);
  mkdirSync(disk);
  now += HOUR_MS;
  await expect.poll(made).toEqual([now]);
  await expect.poll(() => desk.view()).toMatchObject({ failed: null, old: false });
  await desk.stop();
});
