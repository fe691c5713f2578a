import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { HandOverView } from '#shared/wire/hand-over.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, watchErrors } from '#tests/support/browser.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { violations } from '#tests/support/violations.ts';

const data = temporaryFolder('hand-over-browser');
let browser: Browser;
let server: ServerProcess;
let bench: BenchClient;

beforeAll(async () => {
  browser = await openBrowser();
  server = await startProcess({ data: data.path });
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
  await packNext(bench);
  await packNext(bench);
});

afterAll(async () => {
  bench.close();
  await browser.close();
  await server.stop();
  data.remove();
});

/** As a wedge scanner types: all keys in one burst and Enter, wherever the page stands; a busy machine parts none of them. */
async function wedge(page: Page, text: string): Promise<void> {
  await page.evaluate(`(() => {
    const press = (key, code) =>
      document.body.dispatchEvent(
        new KeyboardEvent('keydown', { key, code, bubbles: true, composed: true, cancelable: true }),
      );
    for (const digit of ${JSON.stringify(text)}) press(digit, 'Digit' + digit);
    press('Enter', 'Enter');
  })()`);
}

it('parcels of the bench are scanned into the sack, the missing one is named, and the sheet is printed', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', 'en')`);
  await page.goto(`${server.url}/office#hand-over`);
  const view = (await (await fetch(`${server.url}/api/hand-over`)).json()) as HandOverView;
  const full = view.carriers.find(({ missing }) => missing.length > 1);
  const other = view.carriers.find(({ carrier }) => carrier !== full?.carrier);
  const [one, two] = full?.missing ?? [];
  if (full === undefined || other === undefined || one === undefined || two === undefined)
    throw new Error('no parcels');

  await page.locator(`[data-load="${other.carrier}"], [data-load="${full.carrier}"]`).first().waitFor();
  if ((await page.locator(`[data-load="${other.carrier}"]`).count()) > 0) {
    await page.locator(`[data-load="${other.carrier}"]`).click();
  }
  await wedge(page, one.label ?? '');
  const loud = page.locator('[data-verdict=wrong-carrier]');
  await loud.waitFor();
  expect(await loud.textContent()).toContain(`goes with ${full.name.en}`);
  expect(await violations(page)).toEqual([]);

  await page.locator(`[data-load="${full.carrier}"]`).click();
  await wedge(page, one.label ?? '');
  await page.locator('[data-verdict=in]').waitFor();
  await wedge(page, one.label ?? '');
  await page.locator('[data-verdict=already-in]').waitFor();
  const tag = page.locator(`[data-sack="${full.carrier}"]`);
  expect(await tag.locator('[data-in]').textContent()).toBe('1 parcel in');
  expect(await page.locator('[data-list=missing] tbody tr').allTextContents()).toEqual([
    expect.stringContaining(two.label ?? '?'),
  ]);
  expect(await page.locator(`[data-close="${full.carrier}"]`).textContent()).toContain('leaving 1 behind');

  // The rest at the bench: its scanner is given this sack.
  await page.locator('[data-loads-at]').selectOption('bench-1');
  await bench.until((client) => client.view?.sack?.count === 1, 'the sack at the bench');
  await bench.simulate({ do: 'scan', text: two.label ?? '' });
  await bench.until((client) => client.view?.notice?.code === 'sack-in', 'the parcel in the sack');
  await page.locator(`[data-sack="${full.carrier}"] [data-missing="0"]`).waitFor();
  expect(await violations(page)).toEqual([]);

  await page.locator('[data-by]').selectOption('maren');
  await page.locator(`[data-close="${full.carrier}"]`).click();
  await page.locator('[data-sheet-count]').waitFor();
  expect(await page.locator('[data-sheet-count]').textContent()).toBe('2');
  expect(await page.locator('[data-sheet]').textContent()).toContain('Maren');
  await page.locator('[data-print-sheet=bench-1]').click();
  await page.locator('bf-hand-over-sheet [role=status]', { hasText: 'in the print queue' }).waitFor();
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('header').isVisible()).toBe(false);
  expect(await page.locator('[data-print-page]').isVisible()).toBe(false);
  expect(await page.locator('.signatures').isVisible()).toBe(true);
  await page.emulateMedia({ media: 'screen' });
  await page.locator('[data-put-away]').click();
  await page.locator('[data-open-sheet]').waitFor();
  await page.locator('[data-switch=language]').click();
  await page.locator('h2', { hasText: 'Entrega' }).waitFor();
  await page.locator('[data-switch=theme]').click();
  expect(await violations(page)).toEqual([]);
  expect(errors).toEqual([]);
  await page.close();
});

it('files are mapped by hand, chosen together, and taken from the watched folder while the page is open', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', 'es')`);
  await page.goto(`${server.url}/office#import`);
  const csv = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  await page
    .locator('bf-import input[type=file]')
    .setInputFiles([
      csv(
        'pedidos.csv',
        'order,sku,buyer,postcode,ship by\nBR-1,BR-A,Ada Good,55802,2027-01-05\nBR-2,BR-B,Bo,5580,2027-01-05\n',
      ),
      csv('puesto.csv', 'Nr;Wiegt\nBR-A;180\nBR-B;210\n'),
    ]);
  await page.locator('tr[data-file="puesto.csv"] [data-import=map]').click();
  const form = page.locator('bf-import-mapping');
  await form.locator('select[name=subject]').selectOption('pieces');
  await form.locator('tr[data-field=sku] select').selectOption('0');
  await form.locator('tr[data-field=kind] select').selectOption('constant');
  await form.locator('tr[data-field=kind] input').fill('jeans');
  await form.locator('tr[data-field=mass] select').first().selectOption('1');
  await form.locator('tr[data-field=mass] select').nth(1).selectOption('g');
  await form.locator('input[name=source-name]').fill('puesto');
  expect(await violations(page)).toEqual([]);
  await form.locator('[data-mapping=save]').click();
  // The orders are looked at again, with the pieces that are known by now.
  await page
    .locator('tr[data-file="pedidos.csv"]', { hasText: '1 nuevo, 0 cambiados, 0 sin cambios, 1 rechazado' })
    .waitFor();
  await page.locator('tr[data-file="pedidos.csv"] summary').click();
  expect(await page.locator('tr[data-file="pedidos.csv"] [data-line="3"]').textContent()).toContain(
    'un código postal de cinco cifras',
  );
  await page.locator('[data-import=store]').click();
  await page.locator('[data-import=stored]').nth(1).waitFor();

  writeFileSync(join(data.path, 'incoming', 'balda.csv'), 'Nr;Wiegt\nBR-C;nada\n');
  const came = page.locator('[data-incoming="balda.csv"][data-state=refused]');
  await came.waitFor({ timeout: 15_000 });
  expect(await came.textContent()).toContain('línea 2, columna Wiegt: se esperaba un peso mayor que cero');
  expect(await violations(page)).toEqual([]);
  expect(errors).toEqual([]);
  await page.close();
});
