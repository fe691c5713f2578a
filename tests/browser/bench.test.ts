import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { openBrowser, OWN, taskOf, typeAsScanner, untilSeq, untilTask, watchErrors } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { setBenches } from '#tests/support/set-benches.ts';
import { commandCode, containerCode } from '#shared/codes/our-codes.ts';
import { massDigits, massFromBase } from '#shared/units/mass.ts';

// A bench of its own for each test, on one server.
const config = copyOfConfig();
setBenches(config, 7);
let browser: Browser;
let page: Page;
let number = 0;
let bench: string;
let hands: BenchClient;
let server: ServerProcess;
const data = temporaryFolder('browser');
let errors: readonly string[];

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(OWN), startProcess({ data: data.path, config })]);
});

afterAll(async () => {
  await browser.close();
  await server.stop();
  data.remove();
  removeConfigFolders();
});

beforeEach(async () => {
  number += 1;
  bench = `bench-${String(number)}`;
  // The hands that hold the scanner and lay parcels on the scale; the screen is the page.
  hands = new BenchClient(server.url, bench);
  page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  errors = watchErrors(page);
  await page.goto(`${server.url}/bench/${bench}`);
  await untilTask(page, 'idle');
});

afterEach(async () => {
  hands.close();
  await page.close();
  expect(errors).toEqual([]);
});

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** Lays a mass on a pan that is seen empty first. */
async function weigh(mass: string): Promise<void> {
  await hands.emptyPan();
  await hands.simulate(mass === 'expected' ? { do: 'put-expected' } : { do: 'put-mass', mass });
}

let scanned = '';

/** Read twice in a moment, a code acts once. */
async function scan(text: string): Promise<void> {
  if (text === scanned) await pause(450);
  scanned = text;
  await hands.simulate({ do: 'scan', text });
}

async function printedSlip(): Promise<string> {
  return hands.until(({ offers, view }) => view?.slip === 'printed' && offers?.slips[0]?.svg, 'a printed slip');
}

/** The words of a slip's picture, without its drawing. */
const wordsOf = (svg: string) => svg.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ');

async function toScaleByScanner(): Promise<void> {
  await scan(commandCode('next'));
  await untilTask(page, 'gather');
  const order = hands.view?.order;
  for (const piece of order?.pieces ?? []) await scan(piece.sku);
  await untilTask(page, 'look-over');
  for (let guard = 0; guard < 60 && hands.view?.task.at !== 'fill'; guard++) {
    const { seq } = hands.view ?? { seq: 0 };
    await scan(commandCode('next'));
    await hands.until(({ view }) => (view?.seq ?? 0) > seq, 'the next step');
  }
  await untilTask(page, 'fill');
  await scan(containerCode(hands.view?.container?.id ?? ''));
  await untilTask(page, 'weigh');
}

async function toScale(): Promise<void> {
  for (let guard = 0; guard < 60 && hands.view?.task.at !== 'weigh'; guard++) {
    const { seq } = hands.view ?? { seq: 0 };
    await hands.command('next');
    await hands.until(({ view }) => (view?.seq ?? 0) > seq, 'the next step');
  }
  await untilTask(page, 'weigh');
}

it('an order is finished by scanner alone, a wrong piece and a wrong label stop it, and its clear slip has no warning', async () => {
  await scan(commandCode('next'));
  await untilTask(page, 'gather');
  await scan(await hands.offered('a piece of another order'));
  await hands.until(({ view }) => view?.notice?.code === 'piece-not-in-order', 'the foreign piece refused');
  await page
    .locator('bf-notice-bar')
    .getByText(/Put back .*: not in order/)
    .first()
    .waitFor();
  await scan(commandCode('back'));
  await untilTask(page, 'idle');
  await toScaleByScanner();
  await weigh('expected');
  await untilTask(page, 'seal');
  expect(wordsOf(await printedSlip())).not.toMatch(/Too close|Over/);
  await scan(commandCode('next'));
  await untilTask(page, 'label');
  await scan(await hands.offered('a label for another postcode'));
  await hands.until(({ view }) => view?.notice?.code === 'label-wrong-postcode', 'the wrong label refused');
  expect(await taskOf(page)).toBe('label');
  await scan(await hands.offered('the label'));
  await untilTask(page, 'done');
});

it('at a mass within the margin of the ceiling the slip begins with the warning, in words, with what each way out costs', async () => {
  await toScale();
  const weighing = hands.view?.weigh;
  const ceiling = weighing?.brackets[weighing.planned]?.ceiling ?? 0;
  // On the ceiling once the label, the tape and the slip are on: within the margin whatever it is.
  const onScale = massFromBase(ceiling - (weighing?.toCome ?? 0));
  await weigh(`${massDigits(onScale, 'oz', 1)} oz`);
  await untilTask(page, 'decide');
  if (hands.view?.task.at === 'decide' && hands.view.task.because === 'mismatch') {
    await scan(commandCode('next'));
    await hands.until(({ view }) => view?.confirming?.command === 'next', 'the question');
    await scan(commandCode('confirm'));
  }
  await hands.until(({ view }) => view?.task.at === 'decide' && view.task.because === 'close', 'too close');
  const slip = wordsOf(await printedSlip());
  expect(slip).toMatch(/close/i);
  expect(slip.indexOf('Pay the next bracket')).toBeGreaterThan(-1);
  expect(slip.indexOf('Pay the next bracket')).toBeLessThan(slip.indexOf('Oddment'));
  expect(slip).toMatch(/\$\d+\.\d\d \(\+\$\d+\.\d\d\)/);
  await scan(commandCode('pay-next-bracket'));
  await hands.until(({ view }) => view?.confirming?.command === 'pay-next-bracket', 'the question');
  await scan(commandCode('confirm'));
  await untilTask(page, 'seal');
});

/** The foot switch of the shop’s files, and a key of any keyboard. */
const KEYS: Readonly<Record<string, string>> = { next: 'PageDown', confirm: 'ArrowRight' };

it.each(['touch', 'key'] as const)('an order is finished by %s alone', async (by) => {
  const press = async (command: string) => {
    if (by === 'key') await page.keyboard.press(KEYS[command] ?? '');
    // A question that has come or gone meanwhile has other buttons.
    else
      await page
        .locator(`[data-command="${command}"]`)
        .first()
        .click({ timeout: 3000 })
        .catch(() => undefined);
  };
  await press('next');
  await untilTask(page, 'gather');
  for (let guard = 0; guard < 120; guard++) {
    const task = await taskOf(page);
    if (task === 'done') break;
    const { seq } = hands.view ?? { seq: 0 };
    if (task === 'weigh') {
      await weigh('expected');
      await untilTask(page, 'seal');
      continue;
    }
    const confirming = await page.locator('[data-confirming]').count();
    if (confirming > 0) await pause(600);
    await press(confirming > 0 ? 'confirm' : 'next');
    // Keys that come as fast as a scanner's are none of a person's, who presses again.
    await hands.until(({ view }) => (view?.seq ?? 0) > seq, 'the next step', 3000).catch(() => undefined);
    await untilSeq(page, hands.view?.seq ?? 0);
  }
  await untilTask(page, 'done');
  expect(wordsOf(await printedSlip())).toContain(`BFO-${hands.view?.order?.id ?? '?'}`);
});

it('a keyboard-wedge scanner finishes its piece and never presses the focused button', async () => {
  await page.locator('[data-command="next"]').first().click();
  await untilTask(page, 'gather');
  await page.locator('[data-command="next"]').first().focus();
  const [piece] = (await hands.at('gather')).order?.pieces ?? [];
  const { seq } = hands.view ?? { seq: 0 };
  await typeAsScanner(page, piece?.sku ?? '');
  const view = await hands.until((client) => (client.view?.seq ?? 0) > seq && client.view, 'the scan');
  expect(view.lastScan?.text).toBe(piece?.sku);
  await pause(400);
  expect(hands.view?.seq).toBe(seq + 1);
});

it('says within two seconds that the server or a device is gone, and comes back by itself', async () => {
  await hands.simulate({ do: 'unplug', device: 'scale' });
  await page
    .locator('bf-device-marks')
    .getByText(/scale: ?/)
    .first()
    .waitFor({ timeout: 2500 });
  await hands.simulate({ do: 'plug', device: 'scale' });
  await hands.until(
    ({ devices }) => devices.find((each) => each.device === 'scale')?.state === 'working',
    'the scale back',
    10_000,
  );
  // In the middle of a run: what is scanned meanwhile is kept, over a page that is loaded without a server too.
  await page.locator('[data-command="next"]').first().click();
  await untilTask(page, 'gather');
  const { seq = 0, order = null } = hands.view ?? {};
  const sku = order?.pieces[0]?.sku ?? '';
  await page.waitForFunction('navigator.serviceWorker.controller !== null');
  const { port } = server;
  await server.kill();
  await page.locator('[data-link="lost"]').first().waitFor({ timeout: 2000 });
  const waiting = page.locator('bf-last-scan').getByText('1 sending');
  await typeAsScanner(page, sku);
  await waiting.waitFor();
  await page.reload();
  await page.getByText('This page was kept on the tablet').waitFor();
  await waiting.waitFor();
  hands.close();
  server = await startProcess({ data: data.path, config, port });
  hands = new BenchClient(server.url, bench);
  await page.locator('[data-link="up"]').first().waitFor({ timeout: 10_000 });
  await hands.until(({ view }) => view?.lastScan?.text === sku, 'the scan that was kept');
  await waiting.waitFor({ state: 'detached' });
  await pause(300);
  expect(hands.view?.seq).toBe(seq + 1);
  const manifest = await page.evaluate<{ start_url: string; icons: { src: string }[] }>(
    "fetch(document.querySelector('link[rel=manifest]').href).then((answer) => answer.json())",
  );
  expect(manifest.start_url).toBe(`/bench/${bench}`);
  for (const { src } of manifest.icons) expect((await page.request.get(`${server.url}${src}`)).status()).toBe(200);
  (errors as string[]).length = 0;
});

it('a load that nobody saw arrive is not weighed, and the packer is told to take it off', async () => {
  await hands.simulate({ do: 'unplug', device: 'scale' });
  await hands.simulate({ do: 'put-mass', mass: '9 oz' });
  await toScale();
  await hands.simulate({ do: 'plug', device: 'scale' });
  await page.locator('bf-task-weigh').getByText('Take it off, wait for zero, put it on').waitFor();
  await weigh('expected');
  await untilTask(page, 'seal');
});
