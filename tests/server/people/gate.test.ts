import { afterEach, beforeEach, expect, it } from 'vitest';
import { openOrders } from '#server/store/orders.ts';
import { signSkill } from '#server/store/practice.ts';
import type { Running } from '#server/server.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let data: ReturnType<typeof temporaryFolder>;
let running: Running & { readonly url: string };
let bench: BenchClient;
let scans = 0;

beforeEach(() => {
  data = temporaryFolder('gate');
});

afterEach(async () => {
  bench.close();
  await running.stop();
  data.remove();
  removeConfigFolders();
});

async function shopThat(gate: 'warn' | 'block'): Promise<void> {
  const config = copyOfConfig();
  if (gate === 'block') edit(config, 'people.yaml', 'gate: warn', 'gate: block');
  // Every order of the demo is about one of these kinds, so the gate is met whichever comes next.
  const kinds = [...new Set([...(await import('#config/load.ts')).loadShop(config).wardrobe.kinds.keys()])];
  edit(config, 'people.yaml', 'kinds: [suit, suit-jacket, coat]', `kinds: [${kinds.join(', ')}]`);
  running = await serverOn(config, data.path);
  bench = new BenchClient(running.url, 'bench-1');
  await bench.at('idle');
}

const scan = (text: string) => bench.input({ id: `gate-scan-${String(++scans)}`, type: 'scan', text, by: 'scan' });

async function anOrder(): Promise<string> {
  const [first] = await openOrders(running.store, 1);
  return first!.order.id;
}

it('warns, and gives the order all the same', async () => {
  await shopThat('warn');
  await scan('STAFF-LUCIA-03');
  await scan(orderCode(await anOrder()));
  await bench.at('gather');
  expect(bench.view?.notice).toMatchObject({
    code: 'skill-lacking',
    tone: 'attention',
    values: { skill: 'Trajes y abrigos' },
  });
});

it('blocks, named or next, until the skill is signed off; the order stays open', async () => {
  await shopThat('block');
  await scan('STAFF-LUCIA-03');
  const order = await anOrder();
  const before = await openOrders(running.store, 1000);
  await scan(orderCode(order));
  await bench.until(({ view }) => view?.notice?.code === 'skill-needed', 'the refusal');
  expect(bench.view?.task.at).toBe('idle');
  await bench.command('next');
  await bench.until(({ view }) => view?.notice?.code === 'skill-needed', 'the refusal of the next one');
  expect(await openOrders(running.store, 1000)).toEqual(before);
  await signSkill(running.store, { person: 'lucia', skill: 'suits', by: 'tobias', at: Date.now() });
  await scan(orderCode(order));
  await bench.at('gather');
  expect(bench.view?.notice?.code).not.toBe('skill-lacking');
});
