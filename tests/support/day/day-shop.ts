import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readFileSync } from 'node:fs';
import { demoOrder, demoPieces } from '#tests/benchmarks/demo-orders.ts';
import { copyOfConfig } from '#tests/support/config-folder.ts';
import { seeded } from '#tests/support/seeded.ts';
import { setBenches } from '#tests/support/set-benches.ts';
import { instantOf, wallTimeAt } from '#server/office/local-time.ts';
import { openStore } from '#server/store/open.ts';
import { saveOrders } from '#server/store/orders.ts';
import { savePieces } from '#server/store/pieces.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';

const DAY_MS = 86_400_000;
/** The demo shop's. */
const ZONE = 'America/Chicago';

/** Where a bench finds its devices. */
export interface BenchPorts {
  readonly scale: number;
  readonly scanner: number;
  readonly printer: number;
}

/**
 * The demo shop with as many benches as there are ports, each on devices behind sockets of its own, or on
 * the server's simulators. Its demo pieces and
 * orders are taken away, its counted shelf stays, or has so many times as much on it for a long day; labels are asked of the simulated receiver if wished.
 */
export function dayConfig(benches: readonly (BenchPorts | null)[], { labels = false, shelfTimes = 1 } = {}): string {
  const folder = copyOfConfig();
  for (const file of ['pieces.csv', 'orders.csv']) rmSync(join(folder, 'demo', file));
  const shelf = join(folder, 'demo', 'stock.csv');
  // The first number of a line is what was counted.
  const more = readFileSync(shelf, 'utf8').replace(
    /^([^,\n]+,)(\d+)/gm,
    (_, item: string, counted: string) => `${item}${String(Number(counted) * shelfTimes)}`,
  );
  writeFileSync(shelf, more);
  const on = (port: number) => ({ transport: { kind: 'tcp', host: '127.0.0.1', port } });
  setBenches(folder, benches.length, ({ scale, printer, ...rest }, index) => {
    const ports = benches[index] ?? null;
    return {
      ...rest,
      ...(ports === null
        ? { scale, printer }
        : {
            scale: { ...scale, ...on(ports.scale) },
            scanner: on(ports.scanner),
            printer: { ...printer, ...on(ports.printer) },
          }),
      labelPrinter: undefined,
    };
  });
  if (labels) {
    const shop = join(folder, 'shop.yaml');
    writeFileSync(shop, `${readFileSync(shop, 'utf8')}\nlabels:\n  url: simulated\n`);
  }
  return folder;
}

/**
 * Fills a data folder with orders of one to three pieces of their own, as the demo's are.
 * @param leaving each at a time of its own tomorrow, in the morning before anybody comes; or all with tomorrow's last collection
 */
export async function fillWithOrders(
  data: string,
  count: number,
  now: number,
  leaving: 'each' | 'together' = 'each',
): Promise<void> {
  const store = await openStore(data);
  const { pieces } = await demoPieces();
  const uniform = seeded(count);
  const tomorrow = wallTimeAt(now + DAY_MS, ZONE);
  const first = instantOf({ ...tomorrow, hour: leaving === 'each' ? 8 : 20, minute: 0 }, ZONE);
  const newPieces: Piece[] = [];
  const orders: Order[] = [];
  for (let index = 0; index < count; index++) {
    const size = [1, 1, 1, 1, 1, 1, 2, 2, 3][Math.floor(uniform() * 9)] ?? 1;
    const order = demoOrder(pieces, size, uniform);
    const own = order.pieces.map(({ sku }, line) => ({ sku: `DAY-${String(index)}-${String(line)}`, like: sku }));
    for (const { sku, like } of own) {
      const piece = pieces.find((each) => each.sku === like);
      if (piece !== undefined) newPieces.push({ ...piece, sku });
    }
    orders.push({
      ...order,
      id: String(50_000 + index),
      buyer: `Buyer ${String(index)}`,
      address: [`${String(1 + index)} Any Street`],
      pieces: own.map(({ sku }) => ({ sku, count: 1 })),
      shipBy: new Date(first + index * 1000).toISOString(),
    });
  }
  await store.transaction().execute(async (transaction) => {
    await savePieces(transaction, newPieces);
    for (let at = 0; at < orders.length; at += 50) await saveOrders(transaction, orders.slice(at, at + 50), now);
  });
  await store.destroy();
}
