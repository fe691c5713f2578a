import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, taskOf, untilTask, watchErrors } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** Where the pictures go for somebody who looks at them. */
const PICTURES = process.env['BENCHFOLD_PICTURES'];
const data = temporaryFolder('label-stop');
let browser: Browser;
let server: ServerProcess;
let hands: BenchClient;

beforeAll(async () => {
  browser = await openBrowser();
  server = await startProcess({ data: data.path });
  hands = new BenchClient(server.url, 'bench-1');
  await hands.at('idle');
});

afterAll(async () => {
  hands.close();
  await browser.close();
  await server.stop();
  data.remove();
});

const scan = (text: string) => hands.simulate({ do: 'scan', text });
const offered = (which: string): string => hands.offers?.codes.find(({ label }) => label === which)?.text ?? '';

/** The order on the bench packed up to its label. */
async function toLabel(): Promise<void> {
  await hands.command('next');
  await hands.at('gather');
  for (let turn = 0; turn < 60 && hands.view?.task.at !== 'weigh'; turn += 1) await hands.command('next');
  await hands.emptyPan();
  await hands.simulate({ do: 'put-expected' });
  for (let turn = 0; turn < 60 && hands.view?.task.at !== 'seal'; turn += 1) {
    await new Promise((soon) => setTimeout(soon, 100));
    if (hands.view?.confirming !== null) await hands.command('confirm');
    else if (hands.view.task.at === 'decide')
      await hands.command(hands.view.commands.includes('pay-next-bracket') ? 'pay-next-bracket' : 'next');
  }
  await hands.at('seal');
  await hands.command('next');
  await hands.at('label');
}

/** Every word of the stop can be seen whole. */
async function allInside(page: Page): Promise<boolean> {
  const place = await page.locator('bf-label-stop').boundingBox();
  const parts = await page.locator('bf-label-stop').locator('h1 span, b, .how, .else').all();
  const boxes = await Promise.all(parts.map((part) => part.boundingBox()));
  return (
    place !== null &&
    parts.length === 5 &&
    boxes.every(
      (box) =>
        box !== null &&
        box.y >= place.y - 1 &&
        box.y + box.height <= place.y + place.height + 1 &&
        box.x + box.width <= place.x + place.width + 1,
    )
  );
}

async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE);
  const results = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run: (options: unknown) => Promise<AxeResults> } }).axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    }),
  );
  return results.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join('; ')}`);
}

it('a wrong label stops the run before the packer’s eyes until the right one is scanned', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`${server.url}/bench/bench-1`);
  await toLabel();
  await untilTask(page, 'label');
  const wrong = offered('a label for another postcode');
  const right = offered('the label');
  expect([wrong, right]).not.toContain('');
  await scan(wrong);
  const stop = page.locator('[data-label-stop="postcode"]');
  await stop.waitFor();
  const due = await page.locator('[data-due]').innerText();
  expect(await page.locator('[data-found]').innerText()).not.toBe(due);
  expect(await page.title()).toContain('STOP');

  // A foot that goes on by habit, and a finger on the screen's largest button.
  for (let press = 0; press < 3; press += 1) {
    await page.keyboard.press('PageDown');
    await page.keyboard.press('Space');
    await page.waitForTimeout(550);
  }
  await page.locator('[data-command]').first().click();
  await page.waitForTimeout(300);
  expect(await stop.isVisible()).toBe(true);
  expect(await taskOf(page)).toBe('label');
  expect(hands.view?.confirming).toBeNull();

  // A killed server does not forget it.
  hands.close();
  await server.kill();
  server = await startProcess({ data: data.path, port: server.port });
  hands = new BenchClient(server.url, 'bench-1');
  await hands.at('label');
  await page.locator('[data-link="up"]').waitFor();
  await stop.waitFor();

  for (const [language, other] of [
    ['en', 'es'],
    ['es', 'en'],
  ] as const) {
    for (const theme of ['light', 'dark']) {
      for (const [width, height] of [
        [1280, 800],
        [800, 1280],
        [1024, 600],
      ] as const) {
        await page.setViewportSize({ width, height });
        const name = `${language} ${theme} ${String(width)}x${String(height)}`;
        if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/label-stop ${name}.png` });
        const inside = await allInside(page);
        expect([name, inside]).toEqual([name, true]);
      }
      expect([language, theme, await violations(page)]).toEqual([language, theme, []]);
      await page.locator('[data-switch="theme"]').click();
    }
    await page.locator('[data-switch="language"]').click();
    await page.locator(`html[lang="${other}"]`).waitFor();
  }
  await page.setViewportSize({ width: 1280, height: 800 });

  // Put away on purpose: only then the eyes may check, and they are asked with the postcode.
  await page.locator('[data-command="back"]').click();
  await stop.waitFor({ state: 'detached' });
  await scan(wrong);
  await stop.waitFor();
  await scan(right);
  await untilTask(page, 'done');

  // The same number on the next parcel.
  await toLabel();
  await scan(right);
  const used = page.locator('[data-label-stop]');
  await used.waitFor();
  if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/label-stop used.png` });
  await page.keyboard.press('Space');
  await page.waitForTimeout(300);
  expect(await used.isVisible()).toBe(true);
  await scan(offered('the label'));
  await untilTask(page, 'done');
  expect(errors.filter((error) => !error.includes('ERR_CONNECTION_REFUSED') && !error.includes('WebSocket'))).toEqual(
    [],
  );
});
