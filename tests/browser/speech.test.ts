import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { PAGE_SOUND } from '#tests/support/page-sound.ts';
import { openBrowser, untilTask, watchErrors } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import type { VoiceView } from '#shared/wire/voice.ts';

// The sound itself goes nowhere here: what is seen is what the page asks the server for and what it hands to Web Audio.

let browser: Browser;
let page: Page;
let hands: BenchClient;
let server: ServerProcess;
let data: ReturnType<typeof temporaryFolder>;
let asked: URLSearchParams[];
let errors: readonly string[];

/** What the page handed to Web Audio: length in seconds and loudness of each sentence. */
interface Played {
  /** seconds since the page was opened */
  readonly at: number;
  readonly seconds: number;
  readonly gain: number;
}

beforeAll(async () => {
  data = temporaryFolder('speech');
  [browser, server] = await Promise.all([
    openBrowser(['--use-fake-ui-for-media-stream']),
    startProcess({ data: data.path }),
  ]);
});
afterAll(async () => {
  await browser.close();
  await server.stop();
  data.remove();
});

beforeEach(async () => {
  asked = [];
  // The conditions of this file are texts that the page is asked about; its own policy forbids texts as programs.
  const context = { viewport: { width: 1280, height: 800 }, bypassCSP: true };
  page = await (await browser.newContext(context)).newPage();
  errors = watchErrors(page);
  page.on('request', (request) => {
    const url = new URL(request.url());
    if (url.pathname === '/api/speech') asked.push(url.searchParams);
  });
});

afterEach(async () => {
  hands.close();
  await page.context().close();
});

/** Each test has a bench of its own. */
async function openBench(bench: string): Promise<void> {
  hands = new BenchClient(server.url, bench);
  await page.addInitScript(PAGE_SOUND);
  await page.goto(`${server.url}/bench/${bench}`);
  await untilTask(page, 'idle');
}

const press = (command: string) => page.locator(`[data-command="${command}"]`).first().click();
const texts = () => asked.map((each) => each.get('text') ?? '');
const played = () => page.evaluate<readonly Played[]>('window.played');
const untilPlayed = (condition: string) => page.waitForFunction(condition, null, { timeout: 15_000 });
async function untilSaid(pattern: RegExp): Promise<URLSearchParams> {
  for (const end = Date.now() + 10_000; Date.now() < end;) {
    const found = asked.filter((each) => pattern.test(each.get('text') ?? ''));
    const last = found.at(-1);
    if (last !== undefined) return last;
    await page.waitForTimeout(20);
  }
  throw new Error(`nothing like ${String(pattern)} was said, but ${JSON.stringify(texts())}`);
}

it('speaks each step, again when asked, to each person in their own manner, and is silent when told so', async () => {
  await openBench('bench-1');
  // No touch yet: browsers forbid sound, and the screen says so.
  expect(await page.locator('[data-speech-trouble]').textContent()).toContain('one touch');
  expect(texts().filter((text) => text.startsWith('Find'))).toEqual([]);
  await press('next');
  await untilTask(page, 'gather');
  await untilSaid(/^Find/);
  await untilPlayed('window.played.length === 1');
  expect(await page.locator('[data-speech-trouble]').count()).toBe(0);
  const [first] = await played();
  expect(first?.seconds).toBeGreaterThan(1);
  expect(first?.gain).toBeCloseTo(0.8);

  // Asked again while the first still sounds: it waits for its end.
  await press('repeat');
  await untilPlayed('window.played.length === 2');
  const [begun, again] = await played();
  expect((again?.at ?? 0) - (begun?.at ?? 0)).toBeGreaterThan(first?.seconds ?? 0);

  // A wrong piece is urgent: it cuts in.
  const due = hands.view?.order?.pieces.map((line) => line.sku) ?? [];
  const wrong = ['OT-0401', 'OT-0402', 'OT-0403', 'OT-0404', 'OT-0405'].find((sku) => !due.includes(sku)) ?? '';
  await hands.input({ id: 'wrong-piece', type: 'scan', text: wrong, by: 'scan' });
  await untilSaid(/^Wrong piece\. Put it back/);
  await untilPlayed('window.played.length === 3');
  const [, second, cut] = await played();
  expect((cut?.at ?? 0) - (second?.at ?? 0)).toBeLessThan(second?.seconds ?? 0);

  await page.locator('[data-switch="speech"]').click();
  await page.locator('bf-speech-panel').waitFor();
  await page.locator('[data-speech="rate-more"]').click();
  await page.locator('[data-shown="rate"]', { hasText: '190' }).waitFor();
  await page.locator('[data-speech="volume-less"]').click();
  await page.locator('[data-shown="volume"]', { hasText: '70' }).waitFor();
  await page.locator('[data-speech="form-short"]').click();
  await page.locator('[data-speech="form-short"][aria-pressed="true"]').waitFor();
  await page.locator('[data-speech="trial"]').click();
  expect((await untilSaid(/This is how/)).get('rate')).toBe('190');
  await untilPlayed('Math.abs(window.played.at(-1).gain - 0.7) < 0.01');
  await page.locator('[data-speech="done"]').click();

  // Another person is spoken to as the shop's files say: in Spanish here, at the usual speed.
  await hands.input({ id: 'badge-of-lucia', type: 'scan', text: 'STAFF-LUCIA-03', by: 'scan' });
  const spanish = await untilSaid(/^Ahora prepara Lucía/);
  expect([spanish.get('language'), spanish.get('rate')]).toEqual(['es', '170']);
  await hands.input({ id: 'badge-of-maren', type: 'scan', text: 'STAFF-MAREN-01', by: 'scan' });
  expect((await untilSaid(/^Maren\./)).get('rate')).toBe('200');

  await page.locator('[data-switch="speech"]').click();
  await page.locator('[data-speech="on-false"]').click();
  await page.locator('[data-switch="speech"]', { hasText: 'off' }).waitFor();
  const before = texts().length;
  await press('next');
  await page.waitForTimeout(400);
  expect(texts()).toHaveLength(before);
  expect(errors).toEqual([]);
});

it('does not act on its own voice, although it says commands', async () => {
  await openBench('bench-2');
  const seen: VoiceView[] = [];
  hands.socket.on('voice', (view) => seen.push(view));
  await press('next');
  await untilTask(page, 'gather');
  await page.locator('[data-switch="microphone"]').click();
  await untilPlayed('window.played.length === 1');
  await hands.until(() => seen.at(-1)?.state === 'listening', 'the ear', 20_000);
  seen.length = 0;

  // "Set this order aside? … Say yes confirm, or cancel that."
  await hands.command('item-missing', 'touch');
  await untilSaid(/yes confirm, or cancel that/);
  await hands.until(() => seen.some((view) => view.state === 'muted'), 'the ear being muted');
  await hands.until(() => seen.at(-1)?.state === 'listening', 'the ear hearing again', 20_000);
  expect(seen.at(-1)?.heard).toBeNull();
  await hands.until(({ view }) => view?.confirming?.command === 'set-aside', 'the question still asked');

  // The same room with an ear that is not told: now it hears the cue. Without this the test above could not fail.
  await page.evaluate('window.keepCuesSecret = true');
  await hands.command('repeat', 'touch');
  await hands.until(() => (seen.at(-1)?.heard?.count ?? 0) > 0, 'the cue heard', 20_000);
});
