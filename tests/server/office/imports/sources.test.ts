import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { headerKey } from '#server/office/imports/header-key.ts';
import { previewAgainstStore } from '#server/office/import-service.ts';
import { importSources, removeSource, saveSource } from '#server/store/import-sources.ts';
import { openStore, type Store } from '#server/store/open.ts';
import type { SourceMapping } from '#shared/imports/source.ts';
import { parseMass } from '#shared/units/mass.ts';
import { importShop } from '#tests/support/import-shop.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const folder = temporaryFolder('sources');
let store: Store;
beforeAll(async () => {
  store = await openStore(folder.path);
});
afterAll(async () => {
  await store.destroy();
  folder.remove();
});

const now = Date.parse('2026-11-25T12:00:00Z');
const preview = (subject: 'pieces' | 'orders', text: string) =>
  previewAgainstStore(
    { store, shop: importShop, clock: { now: () => now } },
    { content: Buffer.from(text), fileName: 'stall.csv', subject },
  );
const keep = (mapping: SourceMapping) => saveSource(store, { mapping, headerKey: headerKey(mapping.header), now });

const PIECES: SourceMapping = {
  name: 'market stall',
  subject: 'pieces',
  header: ['Nr', 'Was', 'Was', 'Wiegt', 'Kostet'],
  fields: {
    sku: { column: 0 },
    title: { column: 2 },
    kind: { constant: 't-shirt' },
    mass: { column: 3, unit: 'g' },
    value: { column: 4 },
  },
  decimalMark: 'comma',
  days: null,
};

describe('a source whose columns were said by hand', () => {
  it('is recognised by its header row, however that is written, and read as was said', async () => {
    await expect(preview('pieces', 'Nr;Was;Was;Wiegt;Kostet\nS-1;x;Blue tee;180;1.250\n')).rejects.toThrow('sku');
    await keep(PIECES);
    const { preview: told, records } = await preview(
      'pieces',
      'NR;was;"Was ";Wiegt;Kostet;;\nS-1;x;Blue tee;180;1.250\n',
    );
    expect(told).toMatchObject({ source: 'market stall', refused: [] });
    // Its comma makes decimals, so the point groups thousands; its masses are in grams, not in the shop's ounces.
    expect(records.slice(0, records.length)).toEqual([
      {
        sku: 'S-1',
        title: 'Blue tee',
        kind: 't-shirt',
        mass: parseMass('180 g'),
        value: { minor: 125_000, currency: 'USD' },
      },
    ]);
    expect(await importSources(store)).toMatchObject([{ name: 'market stall', usedAt: now }]);
  });

  it('names line and column of what it cannot take, and the constant where that is wrong', async () => {
    await keep({ ...PIECES, fields: { ...PIECES.fields, kind: { constant: 'tea cosy' } } });
    const { preview: told } = await preview('pieces', 'Nr;Was;Was;Wiegt;Kostet\nS-1;x;Blue tee;heavy;1\n');
    expect(told.refused.map(({ line, column, found }) => [line, column, found])).toEqual([
      [2, '= tea cosy', '"tea cosy"'],
      [2, 'Wiegt', '"heavy"'],
    ]);
    expect(await importSources(store)).toHaveLength(1);
  });

  it('may hold orders under the same header too, with days of its own, and is forgotten when asked', async () => {
    const order = (at: number) => ({ column: at });
    await keep({
      name: 'stall orders',
      subject: 'orders',
      header: ['A', 'B', 'C', 'D', 'E'],
      fields: { order: order(0), skus: order(1), buyer: order(2), postcode: order(3), shipBy: order(4) },
      decimalMark: null,
      days: 'DD/MM/YYYY',
    });
    const text = 'A,B,C,D,E\nO-1,S-1,Ida Wren,55802,03/12/2026\n';
    const told = (await preview('orders', text)).preview;
    expect(told.refused.map(({ expected }) => expected)).toEqual(['the SKU of a piece that was imported']);
    const [, source] = await importSources(store);
    expect(source).toMatchObject({ name: 'stall orders' });
    expect(await removeSource(store, source?.id ?? 0)).toBe(true);
    expect(await removeSource(store, source?.id ?? 0)).toBe(false);
    await expect(preview('orders', text)).rejects.toThrow('expected a column for order');
  });
});
