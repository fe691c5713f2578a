import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, watchErrors } from '#tests/support/browser.ts';
import { manyOrders } from '#tests/support/many-orders.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { violations } from '#tests/support/violations.ts';

const data = temporaryFolder('day-browser');
let browser: Browser;
let server: ServerProcess;
let bench: BenchClient;

beforeAll(async () => {
  browser = await openBrowser();
  await manyOrders(data.path, 2000, Date.now() + 24 * 3_600_000);
  server = await startProcess({ data: data.path });
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
});

afterAll(async () => {
  bench.close();
  await browser.close();
  await server.stop();
  data.remove();
});

it('two thousand open orders are shown live, sorted, filtered by collection, and large for the wall', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', 'en')`);
  await page.goto(`${server.url}/office#day`);
  await page.locator('[data-open="2050"]').waitFor();
  expect(await page.locator('bf-data-table[file=day] tbody tr').count()).toBe(50);
  expect(await violations(page)).toEqual([]);

  const packed = await packNext(bench);
  await page.locator('[data-open="2049"]').waitFor();
  expect(await page.locator('[data-done]').textContent()).toBe('1 done today');
  await page.locator('[data-table-filter]').fill(packed.order);
  await page.locator(`tr[data-row="${packed.order}"]`).waitFor({ state: 'detached' });
  await page.locator('[data-table-filter]').fill('Buyer 1999');
  await page.locator('tr[data-row="M11999"]').waitFor();
  await page.locator('[data-table-filter]').fill('');
  await page.locator('[data-sort=risk]').click();
  const [only] = await page.locator('[data-only]').all();
  await only?.click();
  expect(await only?.getAttribute('aria-pressed')).toBe('true');

  await bench.simulate({ do: 'unplug', device: 'printer' });
  await page.locator('[data-bench=bench-1] [data-trouble=printer]').waitFor();
  await page.locator('[data-wall]').click();
  await page.locator('header').waitFor({ state: 'hidden' });
  expect(await page.locator('bf-data-table').count()).toBe(0);
  expect(await violations(page)).toEqual([]);
  await bench.simulate({ do: 'plug', device: 'printer' });
  await page.locator('[data-bench=bench-1] [data-trouble=printer]').waitFor({ state: 'detached' });
  await page.locator('[data-wall]').click();
  await page.locator('[data-switch=language]').click();
  await page.locator('h2', { hasText: 'El día' }).waitFor();
  await page.locator('[data-switch=theme]').click();
  expect(await violations(page)).toEqual([]);

  // A server that is gone is told at once, and the board comes whole when it is back.
  const port = server.port;
  await server.kill();
  await page.locator('[data-linked=false]').waitFor();
  server = await startProcess({ data: data.path, port });
  await page.locator('[data-linked=true]').waitFor();
  await page.locator('[data-open="2049"]').waitFor();
  expect(errors.filter((error) => !/ERR_CONNECTION|WebSocket|500|Failed to load/.test(error))).toEqual([]);
  await page.close();
});
