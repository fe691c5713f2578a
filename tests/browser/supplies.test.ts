import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, textOf, watchErrors } from '#tests/support/browser.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { violations } from '#tests/support/violations.ts';

const data = temporaryFolder('supplies-browser');
let browser: Browser;
let server: ServerProcess;
let bench: BenchClient;

beforeAll(async () => {
  browser = await openBrowser();
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

it('a parcel finished at the bench takes its container off the shelf, and an empty shelf is told to the bench', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 }, acceptDownloads: true });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', 'en')`);
  await page.goto(`${server.url}/office#supplies`);
  const cell = (item: string) => page.locator(`tr[data-row="${item}"] [data-on-hand]`);
  await cell('label').waitFor();
  const { container } = await packNext(bench);
  const before = Number(await cell(container).textContent());
  await page.reload();
  await cell('label').waitFor();
  expect(Number(await cell('label').textContent())).toBe(639);
  expect(Number(await cell(container).textContent())).toBe(before - 1);

  await page.locator(`[data-open="${container}"]`).click();
  const form = page.locator('[data-stock-entry]');
  await form.locator('[name=amount]').fill('many');
  await form.locator('[type=submit]').click();
  expect(await page.locator('bf-supply-detail [role=alert]').textContent()).toContain('found "many"');
  await form.locator('[name=amount]').fill('0');
  await form.locator('[type=submit]').click();
  await page.locator('bf-supply-detail [role=alert]', { hasText: 'reason: expected' }).waitFor();
  await form.locator('[name=reason]').fill('shelf counted');
  await form.locator('[type=submit]').click();
  await page.locator(`tr[data-row="${container}"] [data-state=out]`).waitFor();
  await bench.until(({ view }) => view?.short?.[0]?.state === 'out', 'the bench told of the empty shelf');
  await page.locator(`[data-to-order="${container}"]`).waitFor();
  await page.locator('bf-chart canvas').waitFor();
  expect(await violations(page)).toEqual([]);

  const [file] = await Promise.all([page.waitForEvent('download'), page.locator('[data-csv=supplies]').click()]);
  const saved = await textOf(file);
  expect(saved).toMatch(/^\ufeffsupply,state,/);
  // What a spreadsheet shows is what the page says: words, rounded figures and days, no order, no instants in milliseconds.
  expect(saved).toMatch(/^Film pouch [^,]+,none left,0,/m);
  expect(saved).not.toMatch(/\d\.\d{3}(?!Z)|\d{6}/);
  const server_ = await (await fetch(`${server.url}/api/exports/supplies.csv`)).text();
  expect(server_.split('\r\n').find((line) => line.startsWith(`${container},`))).toContain(',0,');

  await page.locator('[data-print-list=bench-1]').click();
  await page.locator('bf-supplies [role=status]', { hasText: 'in the print queue' }).waitFor();
  await bench.until(({ offers }) => (offers?.slips.length ?? 0) > 1, 'the list on paper');

  await page.locator('[data-switch=language]').click();
  await page.locator('h2', { hasText: 'Suministros' }).waitFor();
  await page.locator('[data-switch=theme]').click();
  expect(await violations(page)).toEqual([]);
  expect(errors.filter((error) => !error.includes('400'))).toEqual([]);

  await page.goto(`${server.url}/office#backups`);
  await page.locator('[data-backup=now]').click();
  await page.locator('[data-backup-row]', { hasText: 'restaurada de prueba, igual' }).waitFor();
  expect(await violations(page)).toEqual([]);

  // What is gone is planned no more.
  const next = await packNext(bench);
  expect(next.container.split('+')).not.toContain(container);
  await page.close();
});
