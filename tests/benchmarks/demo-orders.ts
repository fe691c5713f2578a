import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadShop } from '#config/load.ts';
import { previewImport } from '#server/office/imports/preview.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

const CONFIG = fileURLToPath(new URL('../../config', import.meta.url));
const POSTCODES = ['55101', '60601', '10001', '90001', '80202', '97201', '33101', '78701', '97202', '59601'];

export interface DemoPieces {
  readonly shop: Shop;
  readonly pieces: readonly Piece[];
  readonly bySku: ReadonlyMap<string, Piece>;
}

/** The demo shop and its pieces, read as an import reads them. */
export async function demoPieces(): Promise<DemoPieces> {
  const shop = loadShop(CONFIG);
  const { records: pieces } = await previewImport({
    bytes: readFileSync(`${CONFIG}/demo/pieces.csv`),
    fileName: 'pieces.csv',
    subject: 'pieces',
    shop,
    existing: { pieces: new Map(), orders: new Map() },
    now: 0,
  });
  return { shop, pieces, bySku: new Map(pieces.map((piece) => [piece.sku, piece])) };
}

/** An order of so many different pieces of the demo, to one of ten places. */
export function demoOrder(pieces: readonly Piece[], size: number, uniform: () => number): Order {
  const left = [...pieces];
  const chosen = Array.from({ length: size }, () => left.splice(Math.floor(uniform() * left.length), 1)[0]!);
  return {
    id: 'bench',
    pieces: chosen.map(({ sku }) => ({ sku, count: 1 })),
    buyer: '',
    address: [],
    to: { postcode: POSTCODES[Math.floor(uniform() * POSTCODES.length)]!, country: 'US' },
    shipBy: '2026-11-26T16:00:00Z',
  };
}
