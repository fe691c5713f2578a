import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBrowser, watchErrors } from '#tests/support/browser.ts';
import type { FitsView } from '#shared/wire/fits.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { violations } from '#tests/support/violations.ts';

/** Currency signs, a thousands separator, a decimal comma (D4), a gap (G4) and a merged title. */
const LIST = [
  'Light parcel prices\t\t\t\t\t\t\t\t',
  'Not over\tZone 1\tZone 2\tZone 3\tZone 4\tZone 5\tZone 6\tZone 7\tZone 8',
  '4 oz\t$3.65\t$3.75\t$3.85\t$3.95\t$4.00\t$4.10\t$4.20\t$4.30',
  '8 oz\t$4.15\t$4.25\t$4,40\t$4.51\t$4.65\t\t$4.90\t$5.00',
  '12 oz\t$4.80\t$4.95\t$5.10\t$5.25\t$5.40\t$5.60\t$5.75\t$5.90',
  '16 oz\t$5.55\t$5.75\t$5.95\t$6.10\t$6.30\t$6.50\t$6.70\t$1,006.85',
].join('\n');

let browser: Browser;
let server: ServerProcess;
const data = temporaryFolder('rates-browser');

const config = copyOfConfig();

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), startProcess({ data: data.path, config })]);
});
afterAll(async () => {
  await browser.close();
  await server.stop();
  data.remove();
  removeConfigFolders();
});

async function openRates(language: 'en' | 'es'): Promise<{ page: Page; errors: readonly string[] }> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(`localStorage.setItem('benchfold.language', '${language}')`);
  await page.goto(`${server.url}/office`);
  await page.locator('[data-part=rates]').click();
  await page.locator('[data-table=prices]').waitFor();
  return { page, errors };
}

async function priceOn(page: Page, day: string): Promise<string> {
  await page.locator('[data-rates=day]').fill(day);
  const form = page.locator('bf-rates-what-if');
  await form.locator('input[name=postcode]').fill('60614');
  await form.locator('[data-rates=ask]').click();
  await form.locator('h3', { hasText: day }).waitFor();
  return (await form.locator('[data-offer=light-parcel] .price b').textContent()) ?? '';
}

describe('a price list', () => {
  test('is pasted, its bad cells are named and mended, and the shop asks the new price from its day on', async () => {
    const { page, errors } = await openRates('en');
    expect(await priceOn(page, '2027-01-17')).toBe('$4.40');
    const form = page.locator('bf-rates-import');
    await form.locator('textarea[name=text]').fill(LIST);
    await form.locator('input[name=carrier]').fill('merrow-post');
    await form.locator('input[name=service]').fill('light-parcel');
    await form.locator('input[name=from]').fill('2027-01-17');
    await form.locator('[data-import=look]').click();
    await form.locator('[data-bad]').first().waitFor();
    expect(await form.locator('[data-bad]').count()).toBe(2);
    expect(await form.locator('[data-cell=D4]').textContent()).toContain('decimal ","');
    expect(await form.locator('[data-cell=G4]').textContent()).toContain('a gap');
    expect(await form.locator('[data-import=use]').count()).toBe(0);
    await form.locator('[data-bad=D4] input').focus();
    expect(await form.locator('[data-bad=D4] .tip').isVisible()).toBe(true);
    expect(await violations(page)).toEqual([]);

    await form.locator('[data-bad=D4] input').fill('$4.40');
    await form.locator('[data-bad=D4] input').press('Tab');
    await form.locator('[data-bad=D4]').waitFor({ state: 'detached' });
    await form.locator('[data-bad=G4] input').fill('$4.75');
    await form.locator('[data-bad=G4] input').press('Tab');
    await form.locator('[data-import=use]').waitFor();
    expect(await form.locator('[data-table=difference] tbody tr').first().textContent()).toContain('+$0.10');
    await form.locator('[data-import=use]').click();
    await form.locator('[data-import=used]').waitFor();

    expect(await priceOn(page, '2027-01-16')).toBe('$4.40');
    expect(await priceOn(page, '2027-01-17')).toBe('$4.51');
    // What the new list changed is still there to be seen: the days on both sides of its first.
    await page.locator('[data-rates=compare-day]').fill('2027-01-16');
    const changed = page.locator('bf-rates-table [data-table=difference]');
    await changed.waitFor();
    expect(await changed.locator('tbody tr').first().textContent()).toContain('+$0.10');
    await page.locator('[data-rates=compare-day]').fill('2025-01-01');
    await page.locator('[data-rates=not-compared]').waitFor();
    expect(await page.locator('[data-rates=not-compared]').textContent()).toContain('No card sells light-parcel');
    await page.locator('[data-rates=compare-day]').fill('2027-01-16');
    await changed.waitFor();
    await page.locator('[data-chart=price] canvas').waitFor();
    // The cheapest are compared at first; one alone has its own ceilings, and each its column.
    const columns = page.locator('[data-table=curve] thead th');
    const compared = (await columns.count()) - 1;
    expect(compared).toBeGreaterThan(1);
    expect(await page.locator('[data-rates=curve-services] input:checked').count()).toBe(compared);
    const others = page.locator('[data-curve]:not([data-curve=light-parcel]) input:checked');
    while ((await others.count()) > 0) await others.first().uncheck();
    expect(await columns.allTextContents()).toEqual(['mass up to', 'A Light parcel']);
    expect(await page.locator('[data-table=curve] tbody tr').allTextContents()).toHaveLength(4);
    const chart = () => page.locator('[data-chart=price] canvas').screenshot();
    const light = await chart();
    await page.locator('[data-switch=theme]').click();
    await page.waitForTimeout(300);
    expect((await chart()).equals(light)).toBe(false);
    expect(await violations(page)).toEqual([]);
    // The browser itself reports the day on which nobody sells the service.
    expect(errors.filter((error) => !error.includes('404'))).toEqual([]);
    await page.close();
  });

  test('the page speaks Spanish, is without violations, and is walked with the keyboard', async () => {
    const { page, errors } = await openRates('es');
    await page.locator('bf-rates-what-if input[name=postcode]').focus();
    await page.keyboard.type('00001');
    await page.keyboard.press('Enter');
    await page.locator('[data-refused=light-parcel]').waitFor();
    expect(await page.locator('[data-refused=light-parcel]').textContent()).toContain(
      'No se conoce el código postal 00001',
    );
    // What is wrong in a file is said in the page's language, and the prices stay as they were.
    edit(config, 'rate-cards/overfield-ground.yaml', 'from: 2026-07-12', 'from: 2026-07-11');
    await page.locator('[data-rates=reload]').click();
    const failure = page.locator('bf-rates > .failure, bf-rates .failure').first();
    await failure.waitFor();
    expect(await failure.textContent()).toContain('se esperaba una sola regla por volumen vigente cada día');
    expect(await failure.textContent()).toContain('rate-cards/overfield-ground.yaml:');
    edit(config, 'rate-cards/overfield-ground.yaml', 'from: 2026-07-11', 'from: 2026-07-12');
    await page.locator('[data-rates=reload]').click();
    await failure.waitFor({ state: 'detached' });
    await page.locator('bf-rates-what-if input[name=mass]').fill('-3 oz');
    await page.keyboard.press('Enter');
    const alert = page.locator('bf-rates-what-if [role=alert]');
    await alert.waitFor();
    expect(await alert.textContent()).toContain('Peso: se esperaba');
    expect(await violations(page)).toEqual([]);
    // The browser itself reports the refused requests.
    expect(errors.filter((error) => !/4(09|22)/.test(error))).toEqual([]);
    await page.close();
  });
});

describe('the settings', () => {
  test('change what a container costs and with it the plan, refuse what does not hold at its field, and restore', async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    const errors = watchErrors(page);
    const original = readFileSync(join(config, 'containers.yaml'), 'utf8');
    const chosen = async () => {
      const fits = (await (await fetch(`${server.url}/api/what-fits?kind=t-shirt`)).json()) as FitsView;
      return fits.containers.find(({ isChosen }) => isChosen)?.id ?? '';
    };
    await page.addInitScript("localStorage.setItem('benchfold.language', 'en')");
    const before = await chosen();
    const costs = new RegExp(`(  ${before}:\\n(?:    .*\\n)*?    cost: )'[\\d.]+'`, 'u');
    await page.goto(`${server.url}/office#settings`);
    await page.locator('[data-by]').selectOption('maren');
    await page.locator(`[data-edit="${before}"]`).click();
    const cost = page.locator('[data-field=cost] input');
    await cost.fill('cheap');
    await page.locator('[data-save]').click();
    await page.locator('[data-field=cost] .wrong').waitFor();
    expect(await page.locator('[data-field=cost]').innerText()).toContain('found "cheap"');
    expect(await violations(page)).toEqual([]);
    await cost.fill('7.12');
    await page.locator('[data-save]').click();
    await page.getByText('What it was before is kept').waitFor();
    expect(readFileSync(join(config, 'containers.yaml'), 'utf8')).toBe(original.replace(costs, "$1'7.12'"));
    expect(await chosen()).not.toBe(before);
    // Removing is refused where another file names it.
    await page.locator(`[data-remove="${before}"]`).click();
    await page.locator('[data-really-remove]').click();
    await page.locator('[data-refused]').getByText('supplies.yaml').waitFor();
    await page.locator('[data-way=earlier]').click();
    await page.locator('[data-compare]').first().click();
    await page.locator('[data-earlier] [data-line=gone]').getByText('7.12').waitFor();
    await page.locator('bf-settings-earlier').getByText('changed here by Maren').waitFor();
    expect(await violations(page)).toEqual([]);
    await page.locator('[data-restore]').click();
    await page.getByText('What it was before is kept').waitFor();
    expect(readFileSync(join(config, 'containers.yaml'), 'utf8')).toBe(original);
    // Rows are moved with their comments; what is wrong is said at the row; what is not saved is not lost by a slip.
    await page.locator('[data-section=supply-rules]').click();
    await page.locator('[data-way=forms]').click();
    const tape = page.locator('[data-row="additions[1]"]');
    await tape.locator('[data-up]').click();
    await page.locator('[data-field="additions[0].mass"] input').fill('heavy');
    await page.locator('[data-save]').click();
    await page.locator('[data-field="additions[0].mass"] .wrong').getByText('found "heavy"').waitFor();
    await page.locator('[data-part=orders]').click();
    await page.locator('[data-stay]').click();
    expect(new URL(page.url()).hash).toBe('#settings');
    const asked = page.waitForEvent('dialog');
    const reloading = page.reload({ timeout: 1000 }).catch(() => null);
    await (await asked).dismiss();
    await reloading;
    await page.locator('[data-field="additions[0].mass"] input').fill('0.03 oz');
    expect(await violations(page)).toEqual([]);
    await page.locator('[data-save]').click();
    await page.getByText('What it was before is kept').waitFor();
    expect(readFileSync(join(config, 'supplies.yaml'), 'utf8')).toContain(
      'a pouch none.\n  - { name: tape, mass: 0.03 oz, plusMinus: 0.02 oz }\n  - { name: label,',
    );
    // By hand, with a mistake: told at the top of the office, in Spanish too, with its line.
    edit(config, 'staff.yaml', 'language: es', 'language: fr');
    await page.locator('[data-switch=language]').click();
    const trouble = page.locator('[data-trouble]');
    await trouble.waitFor({ timeout: 15_000 });
    expect(await trouble.innerText()).toContain('staff.yaml:9');
    expect(await trouble.innerText()).toContain('se espera uno de en, es');
    expect(await violations(page)).toEqual([]);
    // The browser notes each refusal.
    expect(errors.filter((error) => !error.includes('422'))).toEqual([]);
    await page.close();
  });
});

describe('another shop', () => {
  test('the metric shop prices a roll in the dark theme, and walks within its limits', async () => {
    await server.stop();
    server = await startProcess({ data: data.path, config: join(config, 'demo-metric') });
    const { page, errors } = await openRates('es');
    await page.locator('[data-switch=theme]').click();
    const form = page.locator('bf-rates-what-if');
    await form.locator('input[value=roll]').check();
    await form.locator('input[name=roll]').fill('80 x 12');
    await form.locator('input[name=mass]').fill('800');
    await form.locator('input[name=postcode]').fill('2000');
    await form.locator('[data-rates=ask]').click();
    await form.locator('[data-offer=small-packet]').waitFor();
    expect(await form.locator('[data-offer=small-packet] .price b').textContent()).toBe('4,80\u00a0€');
    expect(await form.locator('[data-refused=litre-carton]').textContent()).toContain('Solo para cajas');
    await page.locator('[data-chart=price] canvas').waitFor();
    expect(await violations(page)).toEqual([]);
    await form.locator('input[name=roll]').fill('80 x 12,5');
    await form.locator('[data-rates=ask]').click();
    await form.locator('[data-refused=small-packet]').waitFor();
    expect(await form.locator('[data-refused=small-packet]').textContent()).toContain(
      'Largo más dos diámetros, 1 cm de más',
    );
    expect(errors).toEqual([]);
    await page.close();
  });
});
