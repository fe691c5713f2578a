import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, untilTask, watchErrors } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { toLabel } from '#tests/support/to-label.ts';
import { violations } from '#tests/support/violations.ts';

/** Where the pictures go for somebody who looks at them. */
const PICTURES = process.env['BENCHFOLD_PICTURES'];
const SIZES = [
  [1280, 800],
  [800, 1280],
  [1024, 600],
] as const;
const data = temporaryFolder('number-pad');
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

const entered = (): string | null =>
  hands.view?.task.at === 'label' && hands.view.task.entering !== undefined ? hands.view.task.entering : null;
const untilEntered = (digits: string | null) => hands.until(() => entered() === digits, `the digits ${String(digits)}`);

/** Every digit lies whole inside its frame, and every key inside the middle of the screen; the keys are large enough. */
const misplaced = (page: Page) => page.evaluate<readonly string[]>(MISPLACED);
/** In the page at once: asked for one by one, forty places take long. */
const MISPLACED = `(() => {
  const all = (root, wanted) => [...root.querySelectorAll('*')].flatMap((each) => [
    ...(each.matches(wanted) ? [each] : []),
    ...(each.shadowRoot === null ? [] : all(each.shadowRoot, wanted)),
  ]);
  const [pad] = all(document, 'bf-number-pad');
  const [row] = all(pad.shadowRoot, '[data-digits]');
  const parts = all(pad.shadowRoot, '[data-digit], [data-digits] b');
  if (parts.length < 11) return ['there are no digits'];
  return parts.flatMap((part) => {
    const box = part.getBoundingClientRect();
    const key = part.hasAttribute('data-digit');
    const place = (key ? pad : row).getBoundingClientRect();
    const inside = box.width > 0 && box.top >= place.top - 1 && box.bottom <= place.bottom + 1 && box.right <= place.right + 1;
    const small = key && (box.width < 64 || box.height < 64);
    return [...(inside ? [] : [part.innerText + ' is not inside']), ...(small ? [part.innerText + ' is too small'] : [])];
  });
})()`;

it('a label that cannot be scanned is entered by touch and by keys', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`${server.url}/bench/bench-1`);
  const due = await toLabel(hands);
  await untilTask(page, 'label');
  const digit = (which: string) => page.locator(`[data-digit="${which}"]`).click();
  const command = (which: string) => page.locator(`[data-command="${which}"]`).click();

  // Typed where nothing is being entered, a digit is nothing.
  await page.keyboard.press('Digit5');
  await page.waitForTimeout(200);
  await command('enter-number');
  await page.locator('bf-number-pad').waitFor();
  expect(entered()).toBe('');
  for (const each of '9212391234567812345670000000') await digit(each);
  await untilEntered('9212391234567812345670000000');
  for (const [language, other] of [
    ['en', 'es'],
    ['es', 'en'],
  ] as const) {
    for (const theme of ['light', 'dark']) {
      for (const [width, height] of SIZES) {
        await page.setViewportSize({ width, height });
        const name = `${language} ${theme} ${String(width)}x${String(height)}`;
        if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/number-pad ${name}.png` });
        expect([name, await misplaced(page)]).toEqual([name, []]);
      }
      expect([language, theme, await violations(page, 'wcag')]).toEqual([language, theme, []]);
      await page.locator('[data-switch="theme"]').click();
    }
    await page.locator('[data-switch="language"]').click();
    await page.locator(`html[lang="${other}"]`).waitFor();
  }
  await page.setViewportSize({ width: 1280, height: 800 });

  // Start over, a digit too many taken back, and the foot switch or Enter confirms.
  await command('start-over');
  await untilEntered('');
  await page.keyboard.press('Enter');
  await page.locator('bf-bench').getByText('Too few digits').waitFor();
  for (const each of `${due}0`) await digit(each);
  await untilEntered(`${due}0`);
  await command('back');
  await untilEntered(due);
  if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/number-pad postcode.png` });
  await command('confirm');
  await untilTask(page, 'done');

  // By keys: the number of a label that was never seen, then the same one on the next parcel.
  const number = '9212391234567812345670';
  await toLabel(hands);
  await command('enter-number');
  await page.locator('bf-number-pad').waitFor();
  await page.keyboard.type(`${number.slice(0, -1)}1`, { delay: 60 });
  await untilEntered(`${number.slice(0, -1)}1`);
  await page.keyboard.press('Enter');
  await page.locator('bf-bench').getByText('check digit').waitFor();
  for (const [width, height] of SIZES) {
    await page.setViewportSize({ width, height });
    if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/number-pad wrong ${String(width)}.png` });
    expect([width, await misplaced(page)]).toEqual([width, []]);
  }
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Numpad0');
  await untilEntered(number);
  await page.keyboard.press('Enter');
  await untilTask(page, 'done');
  await toLabel(hands);
  await command('enter-number');
  await page.locator('bf-number-pad').waitFor();
  await page.keyboard.type(number, { delay: 60 });
  await untilEntered(number);
  await page.keyboard.press('Enter');
  await page.locator('[data-label-stop="used"]').waitFor();
  await command('back');
  await hands.until(({ view }) => view?.task.at === 'label' && view.task.stop === undefined, 'the label step');
  await page.close();
  expect(errors).toEqual([]);
});
