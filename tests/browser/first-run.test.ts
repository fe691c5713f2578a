import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { checkFolder } from '#config/load.ts';
import { beginShop } from '#server/first-run/new-shop.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, watchErrors } from '#tests/support/browser.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { violations } from '#tests/support/violations.ts';

// As a spreadsheet in Spanish saves them: semicolons, Windows-1252, decimal commas, the day before the month.
const PRICES = 'hasta (g);precio\n250;3,65\n500;4,90\n1000;6,75\n10000;18,00\n';
const PIECES = 'Código;Descripción;Prenda;Talla;Peso (g)\r\nLN-1;Suéter azul;suéter;M;412,5\r\n';
const ORDERS =
  'Nº de pedido;Código de artículo;Nombre;Dirección;Población;Provincia;Código postal;País;Fecha de envío\r\n' +
  '1001;LN-1;Begoña Muñoz;C/ Ancha 12;Cádiz;Cádiz;11001;España;04/12/2099\r\n';

const place = temporaryFolder('first-run-browser');
const folder = join(place.path, 'shop');
let browser: Browser;
let server: ServerProcess;

beforeAll(async () => {
  beginShop(folder, 'config');
  browser = await openBrowser();
  server = await startProcess({ config: folder, data: join(place.path, 'data') });
});

afterAll(async () => {
  await browser.close();
  await server.stop();
  place.remove();
});

it('an owner’s first day: an empty folder becomes a shop without leaving the guide, and its first order is packed', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', 'es')`);
  await page.goto(`${server.url}/office`);
  const form = page.locator('[data-step-form=shop]');
  await form.waitFor();
  expect(page.url()).toContain('#first-hour');
  await form.locator('[name=name]').fill('Lana y Nudo');
  await form.locator('[name=measures]').selectOption('centimetres');
  await form.locator('[name=currency]').fill('EUR');
  await form.locator('[name=country]').fill('ES');
  await form.locator('[name=postcode]').fill('50003');
  await form.locator('[name=address]').fill('Lana y Nudo\nCalle del Hilo 4');
  await form.locator('[name=timeZone]').fill('Atlantis');
  await form.locator('[data-save]').click();
  await page.locator('.wrong', { hasText: 'IANA' }).waitFor();
  await form.locator('[name=timeZone]').fill('Europe/Madrid');
  // As is usual in the country.
  expect(await form.locator('[name=days]').inputValue()).toBe('day-first');
  expect(await form.locator('[name=decimals]').inputValue()).toBe('comma');
  await form.locator('[data-save]').click();

  const cupboard = page.locator('[data-step-form=containers]');
  // What a new shop begins with is called as whoever reads the guide calls it.
  expect(await cupboard.locator('label', { has: page.locator('[data-keep=carton-40x30x15]') }).innerText()).toBe(
    'Caja 40 x 30 x 15',
  );
  await cupboard.locator('[data-keep=carton-40x30x15]').uncheck();
  await cupboard.locator('[data-another]').click();
  const fields = { name: 'Bolsa kraft 28 x 36', width: 'ancha', length: '36', mass: '19,5', cost: '0,21' };
  for (const [name, value] of Object.entries(fields)) await cupboard.locator(`[data-added] [name=${name}]`).fill(value);
  expect(await violations(page)).toEqual([]);
  await cupboard.locator('[data-save]').click();
  // Told once, by name and column, and nothing is said to be saved any more.
  await cupboard.locator('.wrong', { hasText: 'Bolsa kraft 28 x 36, Ancho' }).waitFor();
  expect(await cupboard.locator('.wrong li').count()).toBe(1);
  expect(await page.locator('bf-first-run > .said').count()).toBe(0);
  await cupboard.locator('[data-added] [name=width]').fill('27,5');
  await cupboard.locator('[data-save]').click();

  const prices = page.locator('[data-step=prices]');
  await prices.locator('[name=text]').fill(PRICES);
  await prices.locator('[name=carrier]').fill('Correo del Sur');
  await prices.locator('[name=service]').fill('Paquete');
  await prices.locator('[data-import=look]').click();
  await prices.locator('[data-import=use]').click();
  await prices.locator('[data-drop]').click();
  const devices = page.locator('[data-step=devices]');
  await devices.locator('bf-settings-section').waitFor();
  expect(await devices.locator('[data-do=listen]').count()).toBe(1);
  await devices.locator('[data-skip]').click();

  // Whoever comes back goes on where they were.
  await page.reload();
  expect(await devices.getAttribute('data-state')).toBe('skipped');
  expect(await prices.getAttribute('data-state')).toBe('done');
  const people = page.locator('[data-step-form=people]');
  await people.locator('[name=person]').fill('Ángela');
  await people.locator('[data-save]').click();
  const files = [
    ['pedidos.csv', ORDERS],
    ['prendas.csv', PIECES],
  ] as const;
  const imports = page.locator('[data-step=import]');
  await imports
    .locator('input[type=file]')
    .setInputFiles(files.map(([name, text]) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text, 'latin1') })));
  await imports.locator('[data-import=store]').click();
  await imports.locator('[data-counts]', { hasText: 'Aquí: 1 prenda, 1 pedido' }).waitFor();
  expect(await violations(page)).toEqual([]);
  await imports.locator('[data-done]').click();
  await page.locator('[data-put-away]').click();
  await page.locator('bf-first-run .begin').waitFor();

  const bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
  expect(bench.view?.queue[0]?.shipBy).toContain('2099-12-04');
  const { order, labels } = await packNext(bench);
  bench.close();
  expect({ order, labels: labels.length }).toEqual({ order: '1001', labels: 1 });
  const shipments = await (await fetch(`${server.url}/api/exports/shipments.csv`)).text();
  expect(shipments).toMatch(/1001.*Begoña Muñoz.*correo-del-sur,paquete/s);
  expect(checkFolder(folder)).toEqual([]);
  expect(readFileSync(join(folder, 'shop.yaml'), 'utf8')).toContain('Lana y Nudo');
  // The refusals above.
  expect(errors.filter((each) => !each.includes('422'))).toEqual([]);
});
