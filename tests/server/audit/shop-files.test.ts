import { appendFileSync, copyFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterAll, expect, it } from 'vitest';
import { changedKeys, keyDigests, keysTold } from '#server/audit/changed-keys.ts';
import { followShopFiles } from '#server/audit/follow-shop-files.ts';
import { ShopHolder } from '#server/shop-holder.ts';
import { newestChanges } from '#server/store/changes.ts';
import type { Store } from '#server/store/open.ts';
import { takenFiles } from '#server/store/shop-files.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const data = temporaryFolder('shop-files');
afterAll(() => {
  data.remove();
  removeConfigFolders();
});

const config = copyOfConfig();
const clock = { now: () => 1 };
const log = pino({ level: 'silent' });

/** As a server starts on the folder as it lies there. */
async function start(store: Store): Promise<ShopHolder> {
  const shops = new ShopHolder(config);
  await followShopFiles({ store, shops, clock, log });
  return shops;
}

const recorded = async (store: Store) =>
  (await newestChanges(store, null)).map(({ what, about, details }) => [what, about, details]);

it('what is changed in the files while no server runs is recorded at the next start, once, by file and key and never by what it says', async () => {
  const store = await openTestStore(data.path);
  await start(store);
  expect(await recorded(store)).toEqual([]);

  edit(config, 'staff.yaml', /(tobias: .*role: )supervisor/, '$1owner');
  edit(config, 'staff.yaml', 'STAFF-LUCIA-03', 'ZQ-NEW-BADGE');
  edit(config, 'shop.yaml', 'name: Oddment & Thrum', 'name: Zqshop');
  appendFileSync(join(config, 'containers.yaml'), '# looked at\n');
  copyFileSync(join(config, 'rate-cards/merrow-post.yaml'), join(config, 'rate-cards/merrow-later.yaml'));
  edit(config, 'rate-cards/merrow-later.yaml', 'carrier: merrow-post', 'carrier: merrow-later');
  edit(config, 'rate-cards/merrow-later.yaml', /^( *-? *\{? *id: )/gm, '$1later-');
  const shops = await start(store);
  const first = await recorded(store);
  expect(first.every(([what]) => what === 'settings-by-hand')).toBe(true);
  expect(Object.fromEntries(first.map(([, about, details]) => [about, details]))).toEqual({
    'staff.yaml': { while: 'stopped', keys: 'staff.lucia.badge, staff.tobias.role' },
    'shop.yaml': { while: 'stopped', keys: 'name' },
    'containers.yaml': { while: 'stopped' },
    'rate-cards/merrow-later.yaml': { while: 'stopped', file: 'added' },
  });
  const kept = JSON.stringify([await takenFiles(store), first]);
  for (const said of ['ZQ-NEW-BADGE', 'STAFF-LUCIA-03', 'Zqshop']) expect(kept).not.toContain(said);

  await start(store);
  expect(await recorded(store)).toEqual(first);

  // What is taken while it runs is recorded by whoever takes it, and not again at the next start.
  edit(config, 'shop.yaml', 'name: Zqshop', 'name: Zqother');
  rmSync(join(config, 'rate-cards/merrow-later.yaml'));
  shops.reload();
  await expect.poll(async () => (await takenFiles(store)).some(({ file }) => file.includes('later'))).toBe(false);
  await start(store);
  expect(await recorded(store)).toEqual(first);
  await store.destroy();
});

it('many keys are told by the first of them and a count', () => {
  const digests = (salt: string) =>
    keyDigests('x.yaml', Array.from({ length: 20 }, (_, at) => `k${String(at)}: ${salt}`).join('\n'), 's');
  const { keys = '' } = keysTold(changedKeys(digests('1'), digests('2')));
  expect(keys.split(', ')).toHaveLength(13);
  expect(keys).toMatch(/, \+8$/);
  expect(keysTold([])).toEqual({});
});
