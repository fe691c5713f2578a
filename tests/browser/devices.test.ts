import type { Browser, Page } from 'playwright-core';
import { SerialPort } from 'serialport';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { createIndicator } from '#drivers/scale/indicator.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import { PRINTABLES } from '#shared/wire/devices.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, watchErrors } from '#tests/support/browser.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { keepPicture } from '#tests/support/keep-picture.ts';
import { violations } from '#tests/support/violations.ts';
import { ptyPair, type PtyPair } from '../drivers/support/pty-pair.ts';
import { setSpeed } from '../drivers/support/set-speed.ts';

const data = temporaryFolder('devices-page');
const ends: (() => unknown)[] = [];
let browser: Browser;
let server: ServerProcess;
let page: Page;
let errors: readonly string[];
/** bench-2's scale hangs on this line */
let line: PtyPair;

const display = { unit: 'oz', places: 1, division: massFromDecimal('0.1', 'oz') } as const;
async function farEnd(path: string): Promise<SerialPort> {
  const far = new SerialPort({ path, baudRate: 9600, autoOpen: false });
  far.on('error', () => undefined);
  await new Promise<void>((resolve, reject) => far.open((error) => (error === null ? resolve() : reject(error))));
  ends.push(() => new Promise<void>((resolve) => (far.isOpen ? far.close(() => resolve()) : resolve())));
  return far;
}

beforeAll(async () => {
  browser = await openBrowser();
  line = await ptyPair();
  ends.push(() => line.pull());
  const indicator = createIndicator({ ...display, protocol: 'sma', capacity: massFromDecimal('70', 'lb') });
  indicator.attach(await farEnd(line.theirs));
  indicator.putMass(massFromDecimal('7.7', 'oz'));
  ends.push(() => indicator.stop());
  const config = copyOfConfig();
  edit(
    config,
    'devices.yaml',
    /(name: Bench 2\n\s+scale:\n\s+)transport: \{ kind: simulated \}\n(\s+)protocol: continuous/,
    `$1transport: { kind: serial, path: ${line.ours}, baud: 9600 }\n$2protocol: sma`,
  );
  server = await startProcess({ data: data.path, config });
  page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  errors = watchErrors(page);
  await page.goto(`${server.url}/office`);
  await page.locator('[data-part=devices]').click();
  await page.locator('[data-desk=bench-1] [data-device=scale][data-state=working]').waitFor();
});

afterAll(async () => {
  await browser.close();
  await server.stop();
  for (const end of ends.reverse()) await end();
  data.remove();
  removeConfigFolders();
});

const desk = (bench = 'bench-1') => page.locator(`[data-desk=${bench}]`);
const live = (bench = 'bench-1') => desk(bench).locator('[data-live=reading]');

it('shows frames as they come, the health with its time, and a pulled cable', async () => {
  const scale = desk().locator('[data-device=scale]');
  await scale.locator('summary').click();
  await scale.locator('[data-frame=weight]').first().waitFor();
  const times = async () => Number(/\d+/.exec(await scale.locator('[data-frame]').first().innerText())?.[0] ?? 0);
  const before = await scale.innerText();
  await page.waitForTimeout(1200);
  expect(await scale.innerText()).not.toBe(before);
  expect(await times()).toBeGreaterThanOrEqual(0);
  expect(await scale.locator('.hex').innerText()).toContain('53 54 2C');
  await desk().locator('[data-plug=scale]').click();
  const began = Date.now();
  await desk().locator('[data-device=scale][data-state=lost]').waitFor({ timeout: 2500 });
  expect(Date.now() - began).toBeLessThan(2500);
  await desk().locator('[data-failure=scale]').waitFor();
  await desk().locator('[data-live=none]').waitFor();
  await desk().locator('[data-plug=scale]').click();
  await desk().locator('[data-device=scale][data-state=working]').waitFor();
  expect(await desk().locator('[data-failure=scale]').count()).toBe(0);
});

it('weighs for a trial: a mass, zero, and what the scale says of itself', async () => {
  await desk().locator('[data-field=mass]').fill('15.9 oz');
  await desk().locator('[data-hand=put-mass]').click();
  await live().getByText('15.9 oz').waitFor();
  await desk().locator('[data-hand=empty-pan]').click();
  await desk().locator('[data-field=mass]').fill('0.3 oz');
  await desk().locator('[data-hand=drift]').click();
  await desk().locator('[data-zero=asked]').waitFor();
  await desk().locator('[data-do=zero]').click();
  await desk().locator('[data-zero=asked]').waitFor({ state: 'detached' });
  await desk().locator('[data-do=about]').click();
  await desk().locator('[data-self=silent]').waitFor();
  await desk().locator('[data-do=next-unit]').click();
  await desk().locator('[data-told]', { hasText: 'only from its own keys' }).waitFor();

  // The scale of the second bench hangs on a serial line and speaks of itself.
  await live('bench-2').getByText('7.7 oz').waitFor();
  await desk('bench-2').locator('[data-do=about]').click();
  const self = desk('bench-2').locator('[data-self=speaks]');
  await self.waitFor();
  expect(await self.innerText()).toMatch(/SMA:2[\s\S]*nothing wrong[\s\S]*7\.70 oz/);
  await desk('bench-2').locator('[data-do=tare]').click();
  await live('bench-2').getByText('net of a tare').waitFor();
  await desk('bench-2').locator('[data-do=clear-tare]').click();
  await live('bench-2').getByText('7.7 oz').waitFor();
});

it('takes a scan for a trial, which does not reach the run', async () => {
  await desk().locator('[data-do=test-scan]').click();
  await desk().locator('[data-test-scan=waiting]').waitFor();
  await desk().locator('[data-field=code]').fill('BFC-NEXT');
  await desk().locator('[data-hand=scan]').click();
  await desk().locator('[data-test-scan=seen]').waitFor();
  expect(await desk().locator('[data-test-scan]').innerText()).toContain('next item');
  const hands = new BenchClient(server.url, 'bench-1');
  await hands.at('idle');
  hands.close();
});

it('shows every document as it would come out, and prints it', async () => {
  const choose = desk().locator('[data-choose=document]');
  const papers: string[] = [];
  for (const what of PRINTABLES) {
    await choose.selectOption(what);
    if (what === 'certificate') await desk().locator('[data-field=name]').fill('Nils Ortega');
    if (what === 'piece-labels') await desk().locator('[data-field=skus]').fill('OT-0311 nothing');
    await desk().locator('[data-do=preview]').click();
    const paper = desk().locator('.paper img');
    await Promise.race([paper.waitFor(), desk().locator('bf-print-desk [role=alert]').waitFor()]);
    papers.push(
      `${what}: ${(await paper.count()) === 1 ? 'shown' : await desk().locator('bf-print-desk [role=alert]').innerText()}`,
    );
  }
  expect(papers.filter((each) => !each.endsWith('shown') && !/nothing/i.test(each))).toEqual([]);
  await choose.selectOption('test');
  await desk().locator('[data-do=print]').click();
  const printed = desk().locator('[data-job][data-state=printed]').first();
  await printed.waitFor();
  await printed.locator('[data-do=paper]').click();
  await printed.locator('.paper img').waitFor();
  // What came out comes out again only on purpose, with a head that says so.
  await printed.locator('[data-do=copy]').click();
  await printed.locator('[data-copy=no]').click();
  await printed.locator('[data-do=copy]').click();
  await printed.locator('[data-copy=yes]').click();
  await desk().locator('[data-job][data-state=printed]', { hasText: 'COPY: Printer test' }).waitFor();
  expect(await desk().locator('[data-job]').count()).toBe(2);
  // The narrow paper of the other bench takes the longest command, its bars going down.
  await desk('bench-2').locator('[data-choose=document]').selectOption('command-cards');
  await desk('bench-2').locator('[data-do=preview]').click();
  await desk('bench-2').locator('.paper img').waitFor();
});

it('puts a simulator in a real scale’s place and the scale back, but not while an order is on the bench', async () => {
  const scale = desk('bench-2').locator('[data-device=scale]');
  const button = desk('bench-2').locator('[data-stand-in=scale]');
  await button.click();
  await desk('bench-2').locator('[data-stand-in=scale][aria-pressed=true]').waitFor();
  await desk('bench-2').locator('[data-field=mass]').fill('3.3 oz');
  await desk('bench-2').locator('[data-hand=put-mass]').click();
  await live('bench-2').getByText('3.3 oz').waitFor();
  expect(await scale.innerText()).toContain('simulated');
  await button.click();
  await live('bench-2').getByText('7.7 oz').waitFor();
  expect(await scale.innerText()).toContain(line.ours);

  const hands = new BenchClient(server.url, 'bench-2');
  await hands.at('idle');
  await hands.command('next');
  await hands.at('gather');
  await button.click();
  await desk('bench-2').locator('bf-device-table [role=alert]').waitFor();
  await live('bench-2').getByText('7.7 oz').waitFor();
  await hands.command('back');
  hands.close();
});

it('finds out the speed and the shape of a scale on a port, and gives the lines for the config', async () => {
  const pair = await ptyPair();
  ends.push(() => pair.pull());
  const far = await farEnd(pair.theirs);
  let speed = 0;
  const timer = setInterval(() => {
    void setSpeed(pair.ours).then((now) => (speed = now));
    // At another speed than its own a line gives bytes that make no sense.
    far.write(speed === 4800 ? 'ST,NT,+    1.25lb\r\n' : Buffer.from([0xf8, 0x80, 0x0d, 0xe1, 0x1c]));
  }, 100);
  ends.push(() => clearInterval(timer));
  const setting = page.locator('bf-scale-setting');
  await setting.locator('[data-field=port]').fill(pair.ours);
  await setting.locator('[data-do=listen]').click();
  const found = setting.locator('[data-finding=found]');
  await found.waitFor({ timeout: 15_000 });
  const said = await found.innerText();
  expect(said).toContain('4800');
  expect(said).toContain('1.25 lb');
  expect(said).toMatch(/9600: /);
  expect(await found.locator('pre').innerText()).toMatch(/kind: serial[\s\S]*baud: 4800[\s\S]*protocol: continuous/);
  await setting.locator('[data-field=port]').fill(line.ours);
  await setting.locator('[data-do=listen]').click();
  await setting.locator('[role=alert]', { hasText: 'in use' }).waitFor();
  await setting.locator('[data-do=usb-scales]').click();
  await setting.locator('[data-usb]').waitFor();
});

it('breaks no accessibility rule in either theme and language, wide and narrow, and fits its page', async () => {
  const found: Record<string, readonly string[]> = {};
  for (const language of ['en', 'es']) {
    for (const scheme of ['light', 'dark']) {
      await page.evaluate(
        ([tongue, theme]) => {
          const { localStorage: kept } = globalThis as unknown as {
            localStorage: { setItem(k: string, v: string): void };
          };
          kept.setItem('benchfold.language', tongue ?? '');
          kept.setItem('benchfold.theme', theme ?? '');
        },
        [language, scheme],
      );
      await page.reload();
      await page.locator('[data-part=devices]').click();
      await desk().locator('[data-device=scale][data-state=working]').waitFor();
      await desk().locator('[data-do=preview]').click();
      await desk().locator('.paper img').waitFor();
      for (const [width, height] of [
        [1280, 800],
        [800, 1280],
      ] as const) {
        await page.setViewportSize({ width, height });
        await keepPicture(page, `devices ${language} ${scheme} ${String(width)}`);
        const wide = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
        if (wide > 0) found[`${language} ${scheme} ${String(width)}: too wide`] = [String(wide)];
      }
      const broken = await violations(page);
      if (broken.length > 0) found[`${language} ${scheme}`] = broken;
    }
  }
  expect(found).toEqual({});
  expect(errors.filter((each) => !each.includes('409') && !each.includes('404'))).toEqual([]);
});
