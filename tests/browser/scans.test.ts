import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import type { Browser, CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, OWN, untilSeq, untilTask, watchErrors } from '#tests/support/browser.ts';
import { ENTER, strokes, typedOn } from '#tests/support/keyboards.ts';
import type { Layout, Stroke } from '#tests/support/keyboards.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { commandCode, containerCode, orderCode } from '#shared/codes/our-codes.ts';
import { FNC1 } from '#shared/codes/gs1.ts';

// Every kind of code as a keyboard-wedge scanner that was never set up types it on a tablet with a national layout.

const ORDER = '4101';
let browser: Browser;
let page: Page;
let keyboard: CDPSession;
let hands: BenchClient;
let server: ServerProcess;
let errors: readonly string[];
const data = temporaryFolder('scans');

beforeAll(async () => {
  server = await startProcess({ data: data.path });
  await server.stop();
  askForTwo(ORDER);
  server = await startProcess({ data: data.path });
  hands = new BenchClient(server.url, 'bench-1');
  browser = await openBrowser(OWN);
  page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  errors = watchErrors(page);
  await page.goto(`${server.url}/bench/bench-1`);
  await untilTask(page, 'idle');
  keyboard = await page.context().newCDPSession(page);
});

afterAll(async () => {
  hands.close();
  await browser.close();
  await server.stop();
  data.remove();
});

/** Two units of the first piece of an order: the import takes one of each, other ways in need not. */
function askForTwo(order: string): void {
  const store = new SqliteDatabase(join(data.path, 'benchfold.db'));
  const row = store.prepare('select body from shop_order where id = ?').get(order) as { body: string };
  const body = JSON.parse(row.body) as { pieces: { sku: string; count: number }[] };
  const [first] = body.pieces;
  store
    .prepare('update shop_order set body = ? where id = ?')
    .run(JSON.stringify({ ...body, pieces: [{ ...first, count: 2 }] }), order);
  store.close();
}

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** All keys a millisecond apart, as a scanner sends them: real keys of the browser, with what the layout makes of each. */
async function burst(text: string, layout: Layout): Promise<void> {
  const parts = text.split(FNC1).map((part) => strokes(part).map((stroke) => keyOf(stroke, layout)));
  const keys = parts.flatMap((part, index) => (index === 0 ? part : [SEPARATOR, ...part]));
  const from = Date.now() / 1000;
  await Promise.all(
    [...keys, keyOf(ENTER, layout)].flatMap(({ text: typed, ...key }, index) => {
      const timestamp = from + index / 1000;
      const down = { type: 'keyDown' as const, timestamp, ...key, ...(typed === undefined ? {} : { text: typed }) };
      return [
        keyboard.send('Input.dispatchKeyEvent', down),
        keyboard.send('Input.dispatchKeyEvent', { type: 'keyUp', timestamp, ...key }),
      ];
    }),
  );
}

interface Key {
  readonly key: string;
  readonly code: string;
  readonly modifiers: number;
  readonly text?: string;
}

/** Control and the closing bracket: FNC1 as many scanners send it (common practice, no source). */
const SEPARATOR: Key = { key: ']', code: 'BracketRight', modifiers: 2 };

function keyOf(stroke: Stroke, layout: Layout): Key {
  const { key, code, shift } = typedOn(layout, stroke);
  return { key, code, modifiers: shift ? 8 : 0, text: key === 'Enter' ? '\r' : key };
}

/** Scans and waits until the page shows what came of it. */
async function scan(text: string, layout: Layout): Promise<void> {
  await pause(450);
  const before = hands.view?.seq ?? 0;
  await burst(text, layout);
  const seq = await hands.until(({ view }) => (view?.seq ?? 0) > before && view?.seq, `what follows "${text}"`);
  await untilSeq(page, seq);
}

const notice = () => hands.view?.notice?.code;

it('badge, order, piece, command card, container bin and label do what they mean, on any layout', async () => {
  await scan('STAFF-TOBIAS-02', 'french');
  expect(hands.view?.packer?.name).toBe('Tobias');
  await scan(orderCode(ORDER), 'spanish');
  const { order } = await hands.at('gather');
  expect(order?.id).toBe(ORDER);
  const sku = order?.pieces[0]?.sku ?? '';

  // The same code twice in a moment is one scan; with two of the piece due, a later one is another.
  await pause(450);
  const { seq } = hands.view ?? { seq: 0 };
  // Another scanner, on its own line, reads the same piece, and tells the symbol before it (AIM identifier).
  await burst(sku, 'french');
  await burst(sku, 'french');
  await hands.simulate({ do: 'scan', text: `]C0${sku}` });
  await hands.until(({ view }) => (view?.seq ?? 0) > seq, 'the piece');
  await pause(300);
  expect(hands.view).toMatchObject({ seq: seq + 1, task: { at: 'gather' }, lastScan: { text: sku } });
  expect(hands.view?.order?.pieces[0]).toMatchObject({ due: 2, gathered: 1 });
  await scan(sku, 'us');
  await untilTask(page, 'look-over');

  // The cards of commands; the Enter at the end presses no button, wherever the keyboard stands.
  await page.locator('[data-switch="theme"]').focus();
  await page.keyboard.press('Tab');
  const theme = await page.locator('html').getAttribute('data-theme');
  for (let guard = 0; guard < 40 && hands.view?.task.at !== 'fill'; guard++) await scan(commandCode('next'), 'spanish');
  await untilTask(page, 'fill');
  expect(await page.locator('html').getAttribute('data-theme')).toBe(theme);

  await scan(containerCode(hands.view?.container?.id ?? ''), 'french');
  await untilTask(page, 'weigh');
  await hands.emptyPan();
  await hands.simulate({ do: 'put-expected' });
  await untilTask(page, 'seal');
  await scan(commandCode('next'), 'french');
  await untilTask(page, 'label');
  await pause(450);
  await burst(await hands.offered('a label for another postcode'), 'spanish');
  await hands.until(() => notice() === 'label-wrong-postcode', 'the wrong label refused');
  await scan(await hands.offered('the label'), 'spanish');
  await untilTask(page, 'done');
  expect(errors).toEqual([]);
});

it('a burst never types into a field, and a person still does', async () => {
  await hands.command('next');
  await hands.at('gather');
  await page.locator('[data-tray="tab"]').click();
  const field = page.locator('input[name="code"]');
  await field.click();
  await page.keyboard.type('by h', { delay: 120 });
  const { seq } = hands.view ?? { seq: 0 };
  await scan(hands.view?.order?.pieces[0]?.sku ?? '', 'french');
  expect(hands.view?.seq).toBeGreaterThan(seq);
  expect(await field.inputValue()).toBe('by h');
  await page.keyboard.type('and', { delay: 120 });
  expect(await field.inputValue()).toBe('by hand');
  expect(errors).toEqual([]);
});
