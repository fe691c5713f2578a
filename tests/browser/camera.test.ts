import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { openBrowser, untilTask, watchErrors } from '#tests/support/browser.ts';
import { photograph } from '#tests/support/camera/photograph.ts';
import type { Shot } from '#tests/support/camera/photograph.ts';
import { printedSymbol } from '#tests/support/camera/symbol.ts';
import type { PrintedSymbol } from '#tests/support/camera/symbol.ts';
import { writeVideo } from '#tests/support/camera/video.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { keepPicture } from '#tests/support/keep-picture.ts';
import { violations } from '#tests/support/violations.ts';
import { setBenches } from '#tests/support/set-benches.ts';

// The camera is a file of moving pictures: the browser, the decoders in their worker, the socket and the server are real.

const SIZE = { width: 960, height: 540 };
const PER_SECOND = 4;
/** An article number that no order asks for: the worked example 730001100001, check digit 7, of the GS1 General Specifications. */
const FOREIGN = '7300011000017';

let browser: Browser | undefined;
// A bench of its own for each test, on one server.
const config = copyOfConfig();
const data = temporaryFolder('camera');
let number = 0;
let bench: string;
let hands: BenchClient;
let server: ServerProcess;

beforeAll(async () => {
  setBenches(config, 3);
  edit(config, 'shop.yaml', /^# proof: .*$/m, 'proof: { photos: always, keepDays: 30 }');
  server = await startProcess({ data: data.path, config, environment: { BENCHFOLD_NAMES: 'bench.test' } });
});

beforeEach(() => {
  number += 1;
  bench = `bench-${String(number)}`;
  hands = new BenchClient(server.url, bench);
});

afterEach(async () => {
  hands.close();
  await browser?.close();
  browser = undefined;
});

afterAll(async () => {
  await server.stop();
  data.remove();
  removeConfigFolders();
});

/** A hand that holds something and is never quite still, but comes back to where it was. */
function* held(symbol: PrintedSymbol, pictures: number, shot: Partial<Shot>): Generator<Uint8Array> {
  const different = Array.from({ length: Math.min(pictures, 4) }, (_, n) => {
    const offset = { x: 9 * Math.sin(n * 1.3), y: 6 * Math.cos(n * 0.9) };
    const turn = (shot.turn ?? 0) + 2 * Math.sin(n);
    return photograph(symbol, { ...SIZE, moduleWidth: 3, blur: 0.8, noise: 5, ...shot, offset, turn, seed: n + 1 });
  });
  for (let n = 0; n < pictures; n++) yield different[n % different.length] ?? new Uint8Array();
}

const EMPTY: PrintedSymbol = { width: 1, height: 1, isDark: () => false };

async function pageWith(
  flags: readonly string[],
  address = server.url,
): Promise<{ page: Page; errors: readonly string[] }> {
  browser = await openBrowser(flags);
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.goto(`${address}/bench/${bench}`);
  await page.locator('[data-link="up"]').waitFor();
  return { page, errors };
}

async function keepLooks(page: Page, name: string): Promise<void> {
  for (const [width, height] of [
    [1280, 800],
    [800, 1280],
  ] as const) {
    await page.setViewportSize({ width, height });
    await keepPicture(page, `${name}-${String(width)}`);
  }
  await page.setViewportSize({ width: 1280, height: 800 });
}

const turn = (page: Page) => page.locator('[data-switch="camera"]').click();
const said = (page: Page) => page.locator('[data-seen]').innerText();

it('a piece held askew before the camera is gathered once; what no open work knows is shown and left alone', async () => {
  await hands.command('next');
  const { order } = await hands.at('gather');
  const sku = order?.pieces[0]?.sku ?? '';
  const file = writeVideo(join(data.path, 'camera.y4m'), { ...SIZE, perSecond: PER_SECOND }, [
    ...held(EMPTY, 3, {}),
    ...held(printedSymbol('ean13', FOREIGN), 7, {}),
    ...held(EMPTY, 3, {}),
    ...held(printedSymbol('code128', sku), 9, { turn: 45 }),
    ...held(EMPTY, 2, {}),
  ]);
  const { page, errors } = await pageWith([
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-video-capture=${file}`,
  ]);
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await untilTask(page, 'gather');
  expect(await page.locator('bf-camera-line').count()).toBe(0);
  const before = hands.view?.seq ?? 0;
  await turn(page);
  await page.locator('[data-seen="not-known"]').waitFor({ timeout: 20_000 });
  expect(await said(page)).toContain(`Read “${FOREIGN}”, which no open work knows`);
  expect(hands.view).toMatchObject({ seq: before, lastScan: null, notice: null });
  await page.locator(`[data-seen="taken"][data-text="${sku}"]`).waitFor({ timeout: 20_000 });
  const view = await hands.until((client) => (client.view?.seq ?? 0) > before && client.view, 'the piece gathered');
  expect(view.lastScan?.text).toBe(sku);
  expect(view.seq).toBe(before + 1);

  // The reader's program comes from the station, as what it is.
  expect(asked.filter((url) => !url.startsWith(server.url) && !url.startsWith('blob:'))).toEqual([]);
  const wasm = asked.find((url) => url.endsWith('.wasm')) ?? '';
  expect((await fetch(wasm)).headers.get('content-type')).toBe('application/wasm');

  const found: Record<string, readonly string[]> = {};
  for (const look of ['light', 'dark']) {
    const wrong = await violations(page, 'wcag');
    if (wrong.length > 0) found[look] = wrong;
    await page.locator('[data-switch="theme"]').click();
  }
  expect(found).toEqual({});

  // A page that nobody sees lets go of the camera, and takes it again.
  const hide = (hidden: boolean) =>
    page.evaluate(
      `Object.defineProperty(document, 'hidden', { value: ${String(hidden)}, configurable: true });
       document.dispatchEvent(new Event('visibilitychange'));`,
    );
  await hide(true);
  await page.locator('[data-camera="off"]').waitFor();
  await hide(false);
  await page.locator('[data-camera="looking"]').waitFor();

  // The choice is this tablet's: it outlives a reload.
  await page.reload();
  await page.locator('[data-camera="looking"]').waitFor();
  await turn(page);
  await page.reload();
  await page.locator('[data-link="up"]').waitFor();
  expect(await page.locator('bf-camera-line').count()).toBe(0);
  expect(errors).toEqual([]);
  const store = new SqliteDatabase(join(data.path, 'benchfold.db'), { readonly: true });
  const by = store.prepare('select given_by from input where bench = ? and seq = ?').get(bench, before + 1);
  expect(by).toEqual({ given_by: 'camera' });
  store.close();
});

it('without a camera it says why and how to mend it, and everything else works', async () => {
  const reasons = [
    ['forbidden', ['--use-fake-device-for-media-stream'], 'localhost', /allow it beside the address/],
    ['none-found', [], 'localhost', /connect one/],
    ['page-not-secure', ['--host-resolver-rules=MAP bench.test 127.0.0.1'], 'bench.test', /localhost, or over https/],
  ] as const;
  for (const [trouble, flags, host, how] of reasons) {
    const { page } = await pageWith(flags, `http://${host}:${String(server.port)}`);
    await turn(page);
    await page.locator(`[data-camera-trouble="${trouble}"]`).waitFor();
    expect(await page.locator('[data-camera-trouble]').innerText()).toMatch(how);
    expect(await violations(page, 'wcag')).toEqual([]);
    await page.locator('[data-camera-leave]').click();
    expect(await page.locator('bf-camera-line').count()).toBe(0);
    await page.locator('[data-command="next"]').first().click();
    await hands.until(({ view }) => view?.task.at !== 'idle', 'an order taken');
    await hands.command('back');
    await untilTask(page, 'idle');
    await browser?.close();
  }
});

it('photos are taken by themselves while the packer goes on, wait for a lost link, and are delivered once', async () => {
  await hands.command('next');
  const { order } = await hands.at('gather');
  const { page, errors } = await pageWith(['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream']);
  for (let turn = 0; turn < 60 && hands.view?.task.at !== 'weigh'; turn += 1) await hands.command('next');
  await page.locator('[data-photo="counting"]').waitFor();

  // The link goes while it is counted: the photo waits at the tablet, over a reload of the server.
  hands.close();
  const { port } = server;
  await server.kill();
  await page.locator('[data-photos-waiting]').waitFor();
  expect(await page.locator('[data-photos-waiting]').innerText()).toContain('1 photo waits for the station');
  await keepLooks(page, 'photo-waiting');
  expect(await violations(page, 'wcag')).toEqual([]);
  server = await startProcess({ data: data.path, config, port });
  await page.locator('[data-photos-waiting]').waitFor({ state: 'detached' });
  type Photos = readonly { readonly is: { readonly bytes?: number; readonly width?: number } }[];
  const kept = async () => (await (await fetch(`${server.url}/api/orders/${order?.id ?? ''}/photos`)).json()) as Photos;
  await expect.poll(kept, { timeout: 10_000 }).toMatchObject([{ what: 'packed', is: { kept: true } }]);
  const photos = await kept();
  expect(photos[0]?.is.bytes).toBeLessThanOrEqual(300_000);

  await page.goto(`${server.url}/office#order/${order?.id ?? ''}`);
  const picture = page.locator('bf-order-photos li img');
  await picture.waitFor();
  // A browser that decodes it is what says that it is a picture.
  await expect
    .poll(() => picture.evaluate((img: unknown) => (img as { naturalWidth: number }).naturalWidth))
    .toBe(photos[0]?.is.width);
  await page.locator('bf-order-photos li button').click();
  await page.locator('bf-order-photos figure').waitFor();
  await keepLooks(page, 'photo-office');
  expect(await violations(page, 'wcag')).toEqual([]);
  expect(errors.filter((error) => !/net::ERR_|WebSocket/.test(error))).toEqual([]);
});
