import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { spawnServer, startProcess } from '#tests/support/server-process.ts';
import { backUp } from '#server/backup/back-up.ts';
import { lookOverStore } from '#server/backup/look-over.ts';
import { STORE_FILE } from '#server/backup/manifest.ts';
import { openStore } from '#server/store/open.ts';
import { saveOrders } from '#server/store/orders.ts';

const CONFIG = resolve(import.meta.dirname, '../../../config');
const root = mkdtempSync(join(tmpdir(), 'benchfold-damage-'));
const sound = join(root, 'sound');
const backups = join(root, 'backups');
let newest = '';

beforeAll(async () => {
  const store = await openStore(sound);
  const orders = Array.from({ length: 400 }, (_, index) => ({
    id: `D${String(index)}`,
    pieces: [{ sku: `P${String(index)}`, count: 1 }],
    buyer: 'A Buyer',
    address: ['1 Any Street'],
    to: { postcode: '55802', country: 'US' },
    shipBy: '2026-11-26T16:00:00Z',
  }));
  for (let at = 0; at < orders.length; at += 50) await saveOrders(store, orders.slice(at, at + 50), 0);
  await store.destroy();
  newest = (await backUp({ data: sound, config: CONFIG, to: backups, now: Date.UTC(2026, 10, 25, 14, 5) })).path;
});

afterAll(() => rmSync(root, { recursive: true, force: true }));

let made = 0;
function damaged(how: (file: string, folder: string) => void): string {
  const folder = join(root, `case-${String(made++)}`);
  mkdirSync(folder);
  copyFileSync(join(sound, STORE_FILE), join(folder, STORE_FILE));
  how(join(folder, STORE_FILE), folder);
  return folder;
}

const PAGE = 4096;

describe('a store that is damaged or gone is told before anything is done with it, with the newest backup', () => {
  it.each<readonly [string, (file: string, folder: string) => void, RegExp]>([
    [
      'its last page overwritten',
      (file) => {
        const bytes = readFileSync(file);
        bytes.fill(0xa5, bytes.length - PAGE);
        writeFileSync(file, bytes);
      },
      /its store is damaged/,
    ],
    ['half of it gone', (file) => truncateSync(file, Math.floor(statSync(file).size / 2 / PAGE) * PAGE), /is damaged/],
    ['torn in the middle of a page', (file) => truncateSync(file, statSync(file).size - 1000), /is damaged/],
    [
      'its first page overwritten',
      (file) => {
        const bytes = readFileSync(file);
        bytes.fill(0, 0, PAGE);
        writeFileSync(file, bytes);
      },
      /is damaged/,
    ],
    ['nothing in it', (file) => truncateSync(file, 0), /found none or an empty file/],
    ['taken away', (file) => rmSync(file), /found none or an empty file/],
  ])('%s', (_what, how, told) => {
    const folder = damaged(how);
    const before = readdirSync(folder).map((name) => [name, readFileSync(join(folder, name)).length]);
    let said = '';
    try {
      lookOverStore(folder, backups);
    } catch (error) {
      said = error instanceof Error ? error.message : '';
    }
    expect(said).toMatch(told);
    expect(said).toContain('The newest backup is of 2026-11-25T14:05:00.000Z, with 400 orders');
    expect(said).toContain(`restore --from ${newest} --to ${folder} --replace`);
    expect(said).not.toContain('\n');
    const after = readdirSync(folder).filter((name) => !/-(wal|shm)$/.test(name));
    expect(after.map((name) => [name, readFileSync(join(folder, name)).length])).toEqual(before);
  });

  it('a new folder is no lost one, and a sound store is no damaged one', () => {
    expect(() => lookOverStore(join(root, 'new'), join(root, 'no-backups'))).not.toThrow();
    expect(() => lookOverStore(sound, backups)).not.toThrow();
  });

  it('a restore that was cut off between its two names is told, and where everything is', () => {
    const folder = damaged(() => undefined);
    renameSync(folder, `${folder}.before-2026`);
    expect(() => lookOverStore(folder, join(folder, 'backups'))).toThrow(
      `a restore was cut off; what was there before is ${folder}.before-2026`,
    );
  });
});

it('a torn end of the write-ahead log is left out up to the last whole transaction, and the store stays whole', async () => {
  const folder = damaged(() => undefined);
  const store = await openStore(folder);
  const order = { pieces: [], buyer: '', address: [], to: { postcode: '1', country: 'US' }, shipBy: '' };
  for (const id of ['W1', 'W2', 'W3']) await saveOrders(store, [{ ...order, id }], 0);
  const torn = join(root, 'torn');
  mkdirSync(torn);
  for (const name of [STORE_FILE, `${STORE_FILE}-wal`]) copyFileSync(join(folder, name), join(torn, name));
  await store.destroy();
  truncateSync(join(torn, `${STORE_FILE}-wal`), statSync(join(torn, `${STORE_FILE}-wal`)).size - 100);
  expect(() => lookOverStore(torn, backups)).not.toThrow();
  const file = new SqliteDatabase(join(torn, STORE_FILE));
  expect(file.prepare(`select id from shop_order where id like 'W%' order by id`).pluck().all()).toEqual(['W1', 'W2']);
  file.close();
});

it('the server says so in one line and does not start; after the restore that it names it does', async () => {
  const folder = damaged((file) => truncateSync(file, statSync(file).size - 1000));
  renameSync(backups, join(folder, 'backups'));
  const child = spawnServer({ data: folder });
  let said = '';
  child.stderr?.on('data', (chunk: Buffer) => (said += chunk.toString()));
  expect(await new Promise((done) => child.once('close', done))).toBe(1);
  expect(said.trim().split('\n')).toHaveLength(1);
  const [, from = ''] = /restore --from (\S+)/.exec(said) ?? [];
  const { restore } = await import('#server/backup/restore.ts');
  const { aside } = restore({ from, to: folder, replace: true, now: Date.now() });
  expect(aside).toHaveLength(1);
  const server = await startProcess({ data: folder });
  const page = (await (await fetch(`${server.url}/api/orders?count=1`)).json()) as { readonly rows: unknown[] };
  expect(page.rows).toHaveLength(1);
  expect(await server.stop()).toBe(0);
});
