import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, taskOf, untilTask, watchErrors } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { toLabel } from '#tests/support/to-label.ts';

// How it looks in each language and on each tablet: bench-states.test.ts.

const data = temporaryFolder('label');
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
const entered = (): string | null =>
  hands.view?.task.at === 'label' && hands.view.task.entering !== undefined ? hands.view.task.entering : null;
const untilEntered = (digits: string | null) => hands.until(() => entered() === digits, `the digits ${String(digits)}`);

it('a wrong label stops the run before the packer’s eyes until the right one is scanned', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`${server.url}/bench/bench-1`);
  await toLabel(hands);
  await untilTask(page, 'label');
  const wrong = await hands.offered('a label for another postcode');
  const right = await hands.offered('the label');
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

  // Put away on purpose: only then the eyes may check, and they are asked with the postcode.
  await page.locator('[data-command="back"]').click();
  await stop.waitFor({ state: 'detached' });
  await scan(wrong);
  await stop.waitFor();
  await scan(right);
  await untilTask(page, 'done');

  // The same number on the next parcel.
  await toLabel(hands);
  await scan(right);
  const used = page.locator('[data-label-stop]');
  await used.waitFor();
  await page.keyboard.press('Space');
  await page.waitForTimeout(300);
  expect(await used.isVisible()).toBe(true);
  await scan(await hands.offered('the label'));
  await untilTask(page, 'done');
  expect(errors.filter((error) => !error.includes('ERR_CONNECTION_REFUSED') && !error.includes('WebSocket'))).toEqual(
    [],
  );
  await page.close();
});

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
  // Start over, a digit too many taken back, and the foot switch or Enter confirms.
  await command('start-over');
  await untilEntered('');
  await page.keyboard.press('Enter');
  await page.locator('bf-bench').getByText('Too few digits').waitFor();
  for (const each of `${due}0`) await digit(each);
  await untilEntered(`${due}0`);
  await command('back');
  await untilEntered(due);
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
