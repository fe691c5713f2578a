import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { previewImport } from '#server/office/imports/preview.ts';
import { zoneOf } from '#shared/rating/zones.ts';
import { CONFIG } from '#tests/support/config-folder.ts';

const shop = loadShop(CONFIG);
const demo = (name: string): Uint8Array => readFileSync(join(CONFIG, 'demo', name));
const now = Date.parse('2026-11-25T15:10:00Z');
const none = { pieces: new Map(), orders: new Map() };

const stock = await previewImport({
  bytes: demo('pieces.csv'),
  fileName: 'pieces.csv',
  subject: 'pieces',
  shop,
  existing: none,
  now,
});
const pieces = new Map(stock.records.map((piece) => [piece.sku, piece]));
const sold = await previewImport({
  bytes: demo('orders.csv'),
  fileName: 'orders.csv',
  subject: 'orders',
  shop,
  existing: { pieces, orders: new Map() },
  now,
});

describe('the demo files', () => {
  it('import whole: every piece and every order', () => {
    expect(stock.preview.refused).toEqual([]);
    expect(sold.preview.refused).toEqual([]);
    expect(stock.records.length).toBeGreaterThanOrEqual(90);
    expect(sold.records).toHaveLength(50);
  });

  it('are of many kinds, weigh about half of the pieces and measure some', () => {
    expect(new Set(stock.records.map((piece) => piece.kind)).size).toBeGreaterThanOrEqual(13);
    const weighed = stock.records.filter((piece) => piece.mass !== undefined).length / stock.records.length;
    expect(weighed).toBeGreaterThan(0.4);
    expect(weighed).toBeLessThan(0.6);
    expect(stock.records.filter((piece) => piece.measured !== undefined).length).toBeGreaterThan(4);
  });

  it('have orders of one to five pieces to every zone, due from today on', () => {
    const sizes = new Set(sold.records.map((order) => order.pieces.length));
    expect([...sizes].sort()).toEqual([1, 2, 3, 4, 5]);
    const post = shop.rates.cards.find((card) => card.carrier === 'merrow-post')!;
    const zones = new Set(
      sold.records.map(
        (order) => zoneOf(post, { from: shop.from, to: order.to }, '2026-11-25', shop.rates.places).zone,
      ),
    );
    expect([...zones].sort()).toEqual(['1', '2', '3', '4', '5', '6', '7', '8']);
    for (const order of sold.records) expect(Date.parse(order.shipBy)).toBeGreaterThan(now);
  });

  it('change nothing when they come again an hour later', async () => {
    const orders = new Map(sold.records.map((order) => [order.id, { order, state: 'open' as const }]));
    const again = await previewImport({
      bytes: demo('orders.csv'),
      fileName: 'orders.csv',
      subject: 'orders',
      shop,
      existing: { pieces, orders },
      now: now + 3_600_000,
    });
    expect(again.preview).toMatchObject({ added: [], changed: [], refused: [], unchanged: 50 });
  });
});
