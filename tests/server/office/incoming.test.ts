import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { UploadFolder } from '#server/office/upload-folder.ts';
import { newestChanges } from '#server/store/changes.ts';
import { ImportsUnderWay } from '#server/office/imports-under-way.ts';
import { resumeImports } from '#server/office/import-store.ts';
import { headerKey } from '#server/office/imports/header-key.ts';
import { IncomingFolder } from '#server/office/incoming/incoming-folder.ts';
import { saveSource } from '#server/store/import-sources.ts';
import { openStore, type Store } from '#server/store/open.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { importShop } from '#tests/support/import-shop.ts';
import { orderFile, pieceFile } from '#tests/support/order-file.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let data: ReturnType<typeof temporaryFolder>;
let store: Store;
let now: number;
let folder: IncomingFolder;
let stored: number;

beforeEach(async () => {
  data = temporaryFolder('incoming');
  store = await openStore(data.path);
  now = Date.parse('2026-11-25T12:00:00Z');
  stored = 0;
  folder = open();
  await folder.look();
});
afterEach(async () => {
  await store.destroy();
  data.remove();
});

function open(shop: Shop = importShop): IncomingFolder {
  return new IncomingFolder({
    store,
    shops: { current: shop },
    clock: { now: () => now },
    log: pino({ level: 'silent' }),
    imports: new ImportsUnderWay(),
    data: data.path,
    uploads: new UploadFolder(data.path),
    onStored: () => {
      stored += 1;
      return Promise.resolve();
    },
  });
}

const at = (...names: readonly string[]): string => join(data.path, 'incoming', ...names);
const put = (name: string, content: string | Uint8Array): void => writeFileSync(at(name), content);
const within = (...names: readonly string[]): readonly string[] =>
  existsSync(at(...names)) ? readdirSync(at(...names)).sort() : [];

/** Looks until whatever lies there has stopped growing. */
async function settle(seconds = 3): Promise<void> {
  await folder.look();
  now += seconds * 1000;
  await folder.look();
}
const count = async (table: 'piece' | 'shop_order'): Promise<number> =>
  (
    await store
      .selectFrom(table)
      .select((select) => select.fn.countAll<number>().as('count'))
      .executeTakeFirstOrThrow()
  ).count;

const PIECES = 'sku,kind\nA-1,jeans\nA-2,sweater\n';
const ORDERS = 'order,sku,buyer,postcode,ship by\nO-1,A-1,Ida Wren,55802,2027-01-05\n';

describe('the watched folder', () => {
  it('takes what has stopped growing, pieces before orders, and moves it', async () => {
    put('a-orders.csv', ORDERS);
    put('b-pieces.csv', PIECES);
    await folder.look();
    expect((await folder.view()).waiting).toEqual([
      { name: 'a-orders.csv', why: 'growing' },
      { name: 'b-pieces.csv', why: 'growing' },
    ]);
    now += 3000;
    await folder.look();
    expect(within('taken')).toEqual(['a-orders.csv', 'b-pieces.csv']);
    expect(within()).toEqual(['taken']);
    // Kept as a change that nobody by name has made.
    expect(await newestChanges(store, null)).toMatchObject([
      {
        what: 'orders-imported',
        about: 'a-orders.csv',
        who: null,
        from: 'folder',
        details: { added: '1', changed: '0' },
      },
      {
        what: 'pieces-imported',
        about: 'b-pieces.csv',
        who: null,
        from: 'folder',
        details: { added: '2', changed: '0' },
      },
    ]);
    expect([await count('piece'), await count('shop_order'), stored]).toEqual([2, 1, 2]);
    expect((await folder.view()).files).toMatchObject([
      { name: 'a-orders.csv', state: 'stored', subject: 'orders', counts: { added: 1 } },
      { name: 'b-pieces.csv', state: 'stored', subject: 'pieces', counts: { added: 2 } },
    ]);
  });

  it('stores nothing of a file with one bad line, and says beside it which line and column, in the shop’s language', async () => {
    folder = open({ ...importShop, language: 'es' });
    put('pieces.csv', `${PIECES}A-3,moon\n`);
    await settle();
    expect(await count('piece')).toBe(0);
    expect(within('refused')).toEqual(['pieces.csv', 'pieces.csv.txt']);
    const text = readFileSync(at('refused', 'pieces.csv.txt'), 'utf8');
    expect(text).toContain('pieces.csv se rechazó el 2026-11-25 06:00. No se guardó nada de él.');
    expect(text).toContain('línea 4, columna kind: se esperaba un tipo: Camiseta, Vaqueros, Suéter; hay "moon"');
    // Mended under the same name it is taken; so is a second one of that name.
    put('pieces.csv', PIECES);
    await settle();
    put('pieces.csv', `${PIECES}A-3,jeans\n`);
    await settle();
    expect(within('taken')).toEqual(['pieces (2).csv', 'pieces.csv']);
    expect(await count('piece')).toBe(3);
  });

  it('does nothing twice: the same content under any name only goes aside, with a word', async () => {
    put('pieces.csv', PIECES);
    await settle();
    put('copy of pieces.csv', PIECES);
    await settle();
    expect(within('taken')).toEqual(['copy of pieces.csv', 'copy of pieces.csv.txt', 'pieces.csv']);
    expect(readFileSync(at('taken', 'copy of pieces.csv.txt'), 'utf8')).toContain('Nothing is done twice here');
    expect(stored).toBe(1);
    // What was refused may be tried again as it is: the pieces may be there by now.
    put('orders.csv', ORDERS.replace('A-1', 'A-9'));
    await settle();
    put('more.csv', 'sku,kind\nA-9,jeans\n');
    await settle();
    put('orders.csv', ORDERS.replace('A-1', 'A-9'));
    await settle();
    expect(await count('shop_order')).toBe(1);
  });

  it('waits for a copy to end, however slowly it comes, and holds orders back meanwhile', async () => {
    put('orders.csv', ORDERS);
    put('pieces.csv', '');
    for (const part of PIECES.match(/.{1,7}/gs) ?? []) {
      await folder.look();
      now += 1500;
      appendFileSync(at('pieces.csv'), part);
    }
    await folder.look();
    expect([within('taken'), within('refused')]).toEqual([[], []]);
    expect((await folder.view()).waiting).toContainEqual({ name: 'orders.csv', why: 'behind-others' });
    await settle();
    expect(within('taken')).toEqual(['orders.csv', 'pieces.csv']);
    expect(within('refused')).toEqual([]);
  });

  it('leaves alone what is no file to take: folders, links, pipes of other programs, files still being written', async () => {
    mkdirSync(at('a folder'));
    const outside = join(data.path, 'outside.csv');
    writeFileSync(outside, PIECES);
    symlinkSync(outside, at('link.csv'));
    for (const name of ['half.csv.part', '.hidden.csv', '~$lock.csv', 'download.crdownload']) put(name, PIECES);
    await settle();
    expect(await count('piece')).toBe(0);
    expect((await folder.view()).waiting).toEqual([
      { name: 'a folder', why: 'no-plain-file' },
      { name: 'link.csv', why: 'no-plain-file' },
    ]);
    renameSync(at('half.csv.part'), at('half.csv'));
    await settle();
    expect(within('taken')).toEqual(['half.csv']);
    expect(existsSync(outside)).toBe(true);
  });

  it('refuses what is no table, in whatever way, and goes on', async () => {
    put('a-picture.csv', Buffer.from('89504e470d0a1a0a', 'hex'));
    put('b-latin.csv', Buffer.from('sku;kind;title\r\nA-1;jeans;Gr\u00fcn\r\n', 'latin1'));
    put('c-sixteen.csv', Buffer.from('\ufeffsku\tkind\r\nA-2\tjeans\r\n', 'utf16le'));
    put('d-open.csv', 'sku,kind\nA-3,"jeans\n');
    put('e-other.csv', 'what,else\n1,2\n');
    put('f-nothing.csv', '');
    writeFileSync(at('g-huge.csv'), '');
    truncateSync(at('g-huge.csv'), 65 * 2 ** 20);
    await settle();
    expect(within('taken')).toEqual(['b-latin.csv', 'c-sixteen.csv']);
    // An empty file may only have been made; its content is waited for.
    expect((await folder.view()).waiting).toEqual([{ name: 'f-nothing.csv', why: 'growing' }]);
    await settle(25);
    expect(within('refused').filter((name) => !name.endsWith('.txt'))).toEqual([
      'a-picture.csv',
      'd-open.csv',
      'e-other.csv',
      'f-nothing.csv',
      'g-huge.csv',
    ]);
    expect(readFileSync(at('refused', 'd-open.csv.txt'), 'utf8')).toContain('line 2: expected every quoted cell');
    expect(readFileSync(at('refused', 'g-huge.csv.txt'), 'utf8')).toContain('at most 64 MB; this one has 65 MB');
  });

  it('reads a source’s files as was said of them', async () => {
    const header = ['Nr', 'Was'];
    const fields = { sku: { column: 0 }, kind: { constant: 'jeans' } };
    const mapping = { name: 'stall', subject: 'pieces', header, fields, decimalMark: null, days: null } as const;
    await saveSource(store, { mapping, headerKey: headerKey(header), now });
    put('stall.csv', 'Nr;Was\nS-1;trousers\n');
    await settle();
    expect((await folder.view()).files).toMatchObject([{ state: 'stored', source: 'stall', subject: 'pieces' }]);
  });

  it('says when the folder is not there, and does not make one in the place of a disk', async () => {
    const away = join(data.path, 'disk', 'exchange');
    folder = open({ ...importShop, importFormats: { ...importShop.importFormats, watchedFolder: away } });
    await folder.look();
    expect(await folder.view()).toMatchObject({ folder: away, trouble: 'ENOENT' });
    expect(existsSync(away)).toBe(false);
    mkdirSync(away, { recursive: true });
    writeFileSync(join(away, 'pieces.csv'), PIECES);
    await settle();
    expect(await folder.view()).toMatchObject({ trouble: null, files: [{ state: 'stored' }] });
  });
});

describe('a server that dies between storing and moving', () => {
  it('moves the file when it is back, and stores nothing again', async () => {
    put('pieces.csv', PIECES);
    await folder.look();
    now += 3000;
    // The folder it is moved into is a file: the move fails, as if the server were gone.
    put('taken', 'in the way');
    await folder.look();
    expect([await count('piece'), stored]).toEqual([2, 1]);
    expect((await folder.view()).waiting).toContainEqual({ name: 'pieces.csv', why: 'not-movable' });
    renameSync(at('taken'), join(data.path, 'away'));
    folder = open();
    folder.start();
    await settle();
    expect(within()).toEqual(['taken']);
    expect(within('taken')).toEqual(['pieces.csv']);
    expect(stored).toBe(1);
    expect(await store.selectFrom('incoming_file').select(['state', 'moved']).execute()).toEqual([
      { state: 'stored', moved: 1 },
    ]);
    await folder.stop();
  });

  it('ends a long file that it had begun to store, and forgets one that it had only begun to read', async () => {
    await store.destroy();
    store = await openStore(data.path);
    folder = open();
    put('pieces.csv', pieceFile(300));
    await settle();
    put('orders.csv', orderFile(300));
    await folder.look();
    now += 3000;
    const looking = folder.look().catch(() => undefined);
    // Killed as soon as the import is settled.
    for (;;) {
      const row = await store
        .selectFrom('incoming_file')
        .select('id')
        .where('name', '=', 'orders.csv')
        .executeTakeFirst();
      if (row !== undefined) break;
      await new Promise((resolve) => setImmediate(resolve));
    }
    await store.destroy();
    await looking;
    expect(within()).toContain('orders.csv');
    store = await openStore(data.path);
    await resumeImports(store);
    expect(await count('shop_order')).toBe(300);
    folder = open();
    await settle();
    expect(within('taken')).toEqual(['orders.csv', 'pieces.csv']);
    expect(await store.selectFrom('incoming_file').selectAll().execute()).toHaveLength(2);
    expect(await count('shop_order')).toBe(300);
  });
});
