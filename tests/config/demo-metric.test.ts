import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { formatProblems } from '#config/config-error.ts';
import { checkFolder, loadShop } from '#config/load.ts';
import { previewImport } from '#server/office/imports/preview.ts';
import { parseMass } from '#shared/units/mass.ts';
import { zoneOf } from '#shared/rating/zones.ts';
import { CONFIG } from '#tests/support/config-folder.ts';

const METRIC = join(CONFIG, 'demo-metric');
const shop = loadShop(METRIC);
const now = Date.parse('2026-11-25T08:00:00Z');
const file = (name: string): Uint8Array => readFileSync(join(METRIC, 'demo', name));

const stock = await previewImport({
  bytes: file('pieces.csv'),
  fileName: 'pieces.csv',
  subject: 'pieces',
  shop,
  existing: { pieces: new Map(), orders: new Map() },
  now,
});
const pieces = new Map(stock.records.map((piece) => [piece.sku, piece]));
const sold = await previewImport({
  bytes: file('orders.csv'),
  fileName: 'orders.csv',
  subject: 'orders',
  shop,
  existing: { pieces, orders: new Map() },
  now,
});

describe('the metric shop', () => {
  it('loads, and shares its garments with the other one', () => {
    expect(formatProblems(checkFolder(METRIC))).toBe('');
    expect(shop).toMatchObject({ currency: 'EUR', language: 'es', units: { mass: 'g', massPlaces: 0, length: 'cm' } });
    expect([...shop.wardrobe.kinds.keys()]).toEqual([...loadShop(CONFIG).wardrobe.kinds.keys()]);
    for (const container of shop.containers.values()) expect(container.cost.currency).toBe('EUR');
  });

  it('reads Spanish sheets with semicolons and decimal commas', () => {
    expect(stock.preview).toMatchObject({ delimiter: ';', refused: [] });
    expect(stock.preview.columns.filter((column) => column.field === null)).toEqual([]);
    expect(pieces.get('OE-101')).toMatchObject({ kind: 'sweater', mass: parseMass('655 g'), measured: { width: 585 } });
    expect(pieces.get('OE-126')?.mass).toBe(parseMass('1405 g'));
    expect(pieces.get('OE-103')).toMatchObject({ title: 'Rebeca de lana; botones de cuero', value: { minor: 3650 } });
    expect(sold.preview.refused).toEqual([]);
    expect(sold.records).toHaveLength(14);
  });

  it('ships to every zone of its post', () => {
    const post = shop.rates.cards[0]!;
    const zones = sold.records.map(
      (order) => zoneOf(post, { from: shop.from, to: order.to }, '2026-11-25', shop.rates.places).zone,
    );
    expect([...new Set(zones)].sort()).toEqual(['home', 'near', 'world']);
  });
});
