import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, expect, it } from 'vitest';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { dayConfig, fillWithOrders } from '#tests/support/day/day-shop.ts';
import { Invariants } from '#tests/support/day/invariants.ts';
import { Packer, startDevices } from '#tests/support/day/packer.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { seeded } from '#tests/support/seeded.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { loadShop } from '#config/load.ts';
import type { OrderPage } from '#shared/wire/office.ts';

const data = temporaryFolder('clock');
afterAll(() => {
  data.remove();
  removeConfigFolders();
});

const HOUR = 3_600_000;
/** No rate card of the shop is in force then: no order can begin, and none may be set aside for it. */
const BEFORE_ALL_RATES = -1200 * 24 * HOUR;
/** Forward and back: a battery that died, somebody who set the wrong day, a network that corrects it. */
const JUMPS = [-26 * HOUR, 50 * HOUR, BEFORE_ALL_RATES, -BEFORE_ALL_RATES, -90_000];

it('a clock that jumps forward and back under the benches stops nothing and breaks nothing that must hold', async () => {
  const devices = [await startDevices(), await startDevices()];
  const config = dayConfig(
    devices.map(({ ports }) => ports),
    { labels: true },
  );
  await fillWithOrders(data.path, 30, Date.now());
  let ahead = 0;
  const server = await serverOn(config, data.path, { now: () => Date.now() + ahead });
  const packers = devices.map(
    (own, index) => new Packer({ bench: `bench-${String(index + 1)}`, devices: own, uniform: seeded(70 + index) }),
  );
  const working = packers.map((packer) => packer.work(server.url));
  const all = () => packers.reduce((sum, { orders }) => sum + orders, 0);
  for (const jump of JUMPS) {
    ahead += jump;
    const before = all();
    // Each time somebody gets an order done, or all are told why none can be begun.
    const told = new Set<Packer>();
    const end = Date.now() + 25_000;
    while (jump === BEFORE_ALL_RATES ? told.size < packers.length : all() === before) {
      await sleep(5);
      for (const packer of packers) if (packer.view?.notice?.code === 'cannot-be-planned') told.add(packer);
      if (Date.now() > end) throw new Error(`the benches do not go on after a jump of ${String(jump / HOUR)} h`);
    }
  }
  for (const packer of packers) packer.stop();
  await Promise.all(working);
  const { rows } = (await (await fetch(`${server.url}/api/orders?count=100`)).json()) as OrderPage;
  expect(rows.filter(({ state }) => state === 'set-aside')).toEqual([]);
  await server.stop();
  const printed = new Map(packers.map(({ bench }, index) => [bench, devices[index]?.printer.jobs() ?? []]));
  const looked = await new Invariants(loadShop(config)).look(data.path, { acknowledged: [], printed });
  expect(looked.broken).toEqual([]);
  expect(looked.parcels).toBeGreaterThanOrEqual(JUMPS.length - 1);
  for (const own of devices) await own.stop();
}, 200_000);
