import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Report } from '#shared/wire/report.ts';
import type { OrderPage } from '#shared/wire/office.ts';
import type { OrderDetail } from '#shared/wire/search.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, textOf, watchErrors } from '#tests/support/browser.ts';
import { packNext, type PackedOrder } from '#tests/support/pack-order.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { violations } from '#tests/support/violations.ts';

const data = temporaryFolder('money-browser');
let browser: Browser;
let server: ServerProcess;
let bench: BenchClient;
const packed: PackedOrder[] = [];

beforeAll(async () => {
  browser = await openBrowser();
  server = await startProcess({ data: data.path });
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
  for (let count = 0; count < 2; count++) packed.push(await packNext(bench));
});

afterAll(async () => {
  bench.close();
  await browser.close();
  await server.stop();
  data.remove();
});

it('parcels of the bench become figures and charts by day, container and person, with the carrier’s corrections', async () => {
  const correction = `label,mass\n${packed[0]?.labels[0]?.split('\u001d')[1] ?? ''},40 oz\n`;
  await fetch(`${server.url}/api/corrections`, { method: 'POST', body: correction });
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', 'en')`);
  await page.goto(`${server.url}/office#money`);
  const report = (await (await fetch(`${server.url}/api/report`)).json()) as Report;
  expect(report.sums).toMatchObject({ orders: 2, corrections: { parcels: 1, dearer: 1 } });
  await page.locator('[data-fact=parcels] b', { hasText: String(report.sums.parcels) }).waitFor();
  expect(await page.locator('[data-fact=postage] b').textContent()).toBe(`$${(report.sums.postage / 100).toFixed(2)}`);
  await page.locator('[data-chart^=postage] canvas').waitFor();
  await page.locator('[data-chart=corrections] canvas').waitFor();
  expect(await page.locator('bf-chart').count()).toBe(6);
  expect(await violations(page)).toEqual([]);

  await page.locator('[data-by]').selectOption('container');
  await page.locator('[data-report-wish] [type=submit]').click();
  for (const { container } of packed) await page.locator(`tr[data-row="${container}"]`).first().waitFor();
  const chart = page.locator('bf-chart').first();
  await chart.locator('summary').click();
  expect(await chart.locator('[data-chart-table] tbody tr').count()).toBe(
    new Set(packed.map((each) => each.container)).size,
  );
  const [file] = await Promise.all([page.waitForEvent('download'), chart.locator('[data-chart-csv]').click()]);
  expect(await textOf(file)).toMatch(/^\ufeffcontainer,postage,buyers paid/);
  const [table] = await Promise.all([page.waitForEvent('download'), page.locator('[data-report-csv]').click()]);
  expect(await textOf(table)).toContain('savedAgainstLadder');

  await page.locator('[data-report-wish] [name=to]').fill('2001-01-02');
  await page.locator('[data-report-wish] [type=submit]').click();
  await page.locator('bf-money [role=alert]', { hasText: 'expected a day up to 2001-01-02' }).waitFor();
  await page.locator('[data-report-wish] [name=from]').fill('2001-01-01');
  await page.locator('[data-report-wish] [type=submit]').click();
  await page.locator('[data-nothing]').waitFor();
  await page.locator('[data-switch=language]').click();
  await page.locator('h2', { hasText: 'Dinero y calidad' }).waitFor();
  await page.locator('[data-switch=theme]').click();
  expect(await violations(page)).toEqual([]);
  expect(errors.filter((error) => !error.includes('400'))).toEqual([]);
  await page.close();
});

it('a packed order is found from any page by its buyer and its tracking number, and says where it is', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', 'en')`);
  await page.goto(`${server.url}/office#supplies`);
  const order = packed[0]?.order ?? '';
  const detail = (await (await fetch(`${server.url}/api/orders/${order}`)).json()) as OrderDetail;
  const label = detail.parcels[0]?.label ?? '';
  expect(packed[0]?.labels.join(' ')).toContain(label);
  const box = page.locator('bf-search input');
  await box.fill(detail.buyer.toUpperCase());
  await page.locator('[data-found=order] a.hit', { hasText: order }).waitFor();
  expect(await violations(page)).toEqual([]);
  await box.fill(label.slice(-8));
  await page.locator('[data-found=parcel] a.hit', { hasText: order }).waitFor();
  await box.press('Enter');
  await page.locator('[data-where=packed]').waitFor();
  await page.locator('[data-place=waits]').first().waitFor();
  expect(await page.locator('bf-order article').first().textContent()).toContain(label);
  expect(await violations(page)).toEqual([]);
  expect(errors).toEqual([]);
  await page.close();
});

it('an order that waits is sent without a piece and gets another address, which goes to what follows as well', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', 'en')`);
  const question = 'text=&state=open&by=id&descending=true&from=0&count=50';
  const { rows } = (await (await fetch(`${server.url}/api/orders?${question}`)).json()) as OrderPage;
  const order = rows.find(({ pieces }) => pieces > 1)?.id ?? '';
  await page.goto(`${server.url}/office#order/${order}`);
  await page.locator('[data-partial=open]').click();
  const first = page.locator('bf-partial-order [name=without]').first();
  const sku = (await first.getAttribute('value')) ?? '';
  await first.check();
  expect(await violations(page)).toEqual([]);
  await page.locator('[data-partial=send]').click();
  await page.locator(`[data-left-out="${sku}"]`).waitFor();

  await page.locator('[data-address=open]').click();
  await page.locator('#name').fill('Nell Marrow');
  const postcode = await page.locator('#postcode').inputValue();
  await page.locator('#postcode').fill('2134');
  await page.locator('[data-address=store]').click();
  await page.locator('#no-postcode', { hasText: 'five digits' }).waitFor();
  expect(await page.locator('#name').inputValue()).toBe('Nell Marrow');
  expect(await violations(page)).toEqual([]);
  await page.locator('#postcode').fill(postcode);
  await page.locator('[data-address=store]').click();
  await page.locator('bf-order-address [role=status]').waitFor();
  await page.locator('dd', { hasText: 'Nell Marrow' }).waitFor();

  await page.locator(`[data-left-out="${sku}"] a`).click();
  await page.locator(`[data-rest-of="${order}"]`).waitFor();
  await page.locator('dd', { hasText: 'Nell Marrow' }).waitFor();
  await page.locator('[data-partial=here]').click();
  await page.locator('[data-where=open]').waitFor();
  await page.locator('[data-switch=language]').click();
  await page.locator('[data-address=open]', { hasText: 'Cambiar la dirección' }).waitFor();
  expect(await violations(page)).toEqual([]);
  expect(errors).toEqual([]);
  await page.close();
});
