import { setTimeout as sleep } from 'node:timers/promises';
import { demoOrder, demoPieces } from './demo-orders.ts';
import { atMost, plain, type Figure } from './figure.ts';
import { watchedServer } from './watching.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import type { ImportPreview } from '#shared/wire/office.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { seeded } from '#tests/support/seeded.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

/** Orders taken before the loop is watched, as at a server that has run for a while, and while it is. */
const BEFORE = 5;
const ORDERS = 25;
const GOAL = 20;

/**
 * How long the loop of a whole server, with its scales, scanners and screens, is held up while a bench takes orders of ten
 * pieces and the office asks what fits; and while it stands idle, since other programs of the computer hold it up too.
 */
export async function planningLoop(): Promise<Figure[]> {
  const data = temporaryFolder('loop');
  const server = await watchedServer(data.path);
  const { url } = server;
  const bench = new BenchClient(url, 'bench-1');
  try {
    await bench.at('idle');
    const { pieces } = await demoPieces();
    const uniform = seeded(31);
    const skus = Array.from({ length: ORDERS }, () => demoOrder(pieces, 10, uniform).pieces.map(({ sku }) => sku));
    await importOrders(url, skus);
    const pack = async (from: number, to: number) => {
      for (let at = from; at < to; at++) {
        await bench.simulate({ do: 'scan', text: orderCode(`LOOP-${String(at)}`) });
        await bench.at('gather');
        const query = (skus[at] ?? []).slice(0, 4).map((sku) => `sku=${sku}`);
        await (await fetch(`${url}/api/what-fits?${query.join('&')}`)).arrayBuffer();
        await bench.command('back');
        await bench.at('idle');
      }
    };
    await pack(0, BEFORE);
    const start = performance.now();
    const { delay: planning } = await server.while(() => pack(BEFORE, ORDERS));
    const { delay: idle } = await server.while(() => sleep(performance.now() - start));
    const against = `idle for as long: p99 ${idle.p99.toFixed(1)}, most ${idle.most.toFixed(1)} ms`;
    const common = { bench: 'planning', unit: 'ms', against } as const;
    return [
      atMost({ ...common, name: "server's loop held up while planning, p99", value: round(planning.p99), goal: GOAL }),
      plain({ ...common, name: "server's loop held up while planning, most", value: round(planning.most) }),
    ];
  } finally {
    bench.close();
    await server.stop();
    data.remove();
  }
}

const round = (value: number) => Number(value.toPrecision(3));

/** Pieces of the demo anew, since each may be in one open order only. */
async function importOrders(url: string, skus: readonly (readonly string[])[]): Promise<void> {
  const { bySku } = await demoPieces();
  const pieces: string[] = ['sku,title,kind,size,cloth'];
  const orders: string[] = ['order,skus,buyer,postcode,country,shipBy'];
  skus.forEach((list, at) => {
    for (const sku of list) {
      const piece = bySku.get(sku);
      pieces.push(`L${String(at)}-${sku},${sku},${piece?.kind ?? ''},${piece?.size ?? ''},${piece?.cloth ?? ''}`);
    }
    orders.push(
      `LOOP-${String(at)},${list.map((sku) => `L${String(at)}-${sku}`).join(' ')},Ida Tamberlow,60601,US,2030-01-01`,
    );
  });
  for (const [subject, lines] of [
    ['pieces', pieces],
    ['orders', orders],
  ] as const) {
    const post = (path: string, body: string) => fetch(`${url}/api/imports/${path}`, { method: 'POST', body });
    const preview = (await (await post(`${subject}/preview`, lines.join('\n'))).json()) as ImportPreview;
    if (preview.refused.length > 0) throw new Error(JSON.stringify(preview.refused[0]));
    await post(`${preview.id}/apply`, '');
  }
}
