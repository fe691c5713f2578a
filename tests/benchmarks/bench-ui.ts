import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, CDPSession, Page } from 'playwright-core';
import { BenchClient } from '../support/bench-client.ts';
import { openBrowser } from '../support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '../support/server-process.ts';
import { atMost, plain, type Figure } from './figure.ts';

const BENCH = 'bench-ui';
const SLOW_DOWN = 6;
const STARTS = 5;
const ORDERS = 3;
const ROOT = resolve(import.meta.dirname, '../..');

/** What a page that is measured notes about itself; it runs in the page before anything of the page does. */
const WATCH = `
  window.measured = { ready: null, events: [], views: [] };
  let began = null, seq = null;
  const shell = () => document.querySelector('bf-bench')?.shadowRoot?.querySelector('[data-task]');
  const command = () => document.querySelector('bf-bench')?.shadowRoot?.querySelector('bf-commands')?.shadowRoot?.querySelector('[data-command]');
  addEventListener('pointerdown', (event) => { began = event.timeStamp; }, { capture: true });
  addEventListener('keydown', (event) => { began = event.timeStamp; }, { capture: true });
  const painted = (then) => { const { port1, port2 } = new MessageChannel(); port1.onmessage = then; port2.postMessage(null); };
  const look = () => {
    const here = shell();
    if (window.measured.ready === null && here?.dataset.link === 'up' && command()) {
      painted(() => { window.measured.ready = performance.now(); });
    }
    const now = here?.dataset.seq ?? null;
    if (now !== seq) {
      const from = began;
      if (seq !== null && from !== null) painted(() => { window.measured.views.push(performance.now() - from); });
      seq = now;
      began = null;
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
  new PerformanceObserver((list) => {
    for (const { name, duration, interactionId } of list.getEntries()) {
      if (interactionId > 0) window.measured.events.push({ name, duration, interactionId });
    }
  }).observe({ type: 'event', durationThreshold: 16, buffered: true });
`;

interface Measured {
  readonly ready: number | null;
  readonly events: readonly { readonly name: string; readonly duration: number; readonly interactionId: number }[];
  readonly views: readonly number[];
}

/** The bench's page on a tablet: how much it loads, how soon it can be used, and how soon an input is answered. */
export async function bench(): Promise<readonly Figure[]> {
  execFileSync(process.execPath, [resolve(ROOT, 'server/build.mjs')]);
  const data = temporaryFolder('bench-ui');
  const server = await startProcess({ data: data.path });
  const browser = await openBrowser();
  try {
    return [
      ...(await loaded(browser, server)),
      ...(await starts(browser, server)),
      ...(await wholeOrders(browser, server)),
    ];
  } finally {
    await browser.close();
    await server.stop();
    data.remove();
  }
}

const kilobytes = (bytes: number): number => bytes / 1000;
const zipped = (bytes: Buffer): number => gzipSync(bytes, { level: 9 }).length;

/** Text that the page loads until it stands, and what the worker keeps of it. */
async function loaded(browser: Browser, server: ServerProcess): Promise<readonly Figure[]> {
  const page = await browser.newPage();
  const sizes = { text: 0, textZipped: 0, fonts: 0, sent: 0 };
  const answers: Promise<void>[] = [];
  page.on('response', (response) => {
    const { pathname } = new URL(response.url());
    const isText = /^\/bench|\.(js|css)$/.test(pathname) && !pathname.includes('bench-worker');
    const isFont = pathname.endsWith('.woff2');
    if (!isText && !isFont) return;
    answers.push(
      response.body().then((body) => {
        if (isFont) sizes.fonts += body.length;
        else {
          sizes.text += body.length;
          sizes.textZipped += zipped(body);
        }
      }),
    );
  });
  await page.goto(`${server.url}/bench/bench-1`);
  await page.locator('[data-link="up"]').waitFor();
  await Promise.all(answers);
  await page.close();
  const worker = readFileSync(resolve(ROOT, 'build/ui/bench-worker.js'), 'utf8');
  const kept = [...new Set(worker.match(/\/assets\/[\w.-]+/g) ?? [])];
  const keptBytes = kept.map((file) => zipped(readFileSync(resolve(ROOT, `build/ui${file}`))));
  const against = 'HTML, scripts and style sheets that the page loads to stand, each in gzip; no decoder is among them';
  return [
    atMost({ bench: BENCH, name: 'page, in gzip', value: kilobytes(sizes.textZipped), unit: 'kB', goal: 200, against }),
    plain({ bench: BENCH, name: 'page, as it is', value: kilobytes(sizes.text), unit: 'kB', against }),
    plain({ bench: BENCH, name: 'its fonts', value: kilobytes(sizes.fonts), unit: 'kB', against: 'WOFF2' }),
    plain({
      bench: BENCH,
      name: 'kept on the tablet, in gzip',
      value: kilobytes(keptBytes.reduce((sum, bytes) => sum + bytes, 0)),
      unit: 'kB',
      against: 'page, fonts, charts of progress',
    }),
  ];
}

async function slowPage(browser: Browser): Promise<{ readonly page: Page; readonly devtools: CDPSession }> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  await page.addInitScript(WATCH);
  const devtools = await context.newCDPSession(page);
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOW_DOWN });
  return { page, devtools };
}

const measured = (page: Page): Promise<Measured> => page.evaluate('window.measured');

/** From asking for the page, nothing kept of it, to the painted bench whose buttons act. */
async function starts(browser: Browser, server: ServerProcess): Promise<readonly Figure[]> {
  const times: number[] = [];
  for (let start = 0; start < STARTS; start++) {
    const { page } = await slowPage(browser);
    await page.goto(`${server.url}/bench/bench-1`);
    await page.waitForFunction('window.measured.ready !== null', null, { timeout: 60_000 });
    times.push((await measured(page)).ready ?? Number.NaN);
    await page.context().close();
  }
  times.sort((a, b) => a - b);
  const against = `processor slowed ${String(SLOW_DOWN)} times (DevTools protocol), nothing kept, ${String(STARTS)} times, server on the same computer`;
  return [
    atMost({
      bench: BENCH,
      name: 'start until it takes an input, median',
      value: times[Math.floor(STARTS / 2)] ?? Number.NaN,
      unit: 'ms',
      goal: 3000,
      against,
    }),
    plain({ bench: BENCH, name: 'the same, slowest', value: times.at(-1) ?? Number.NaN, unit: 'ms', against }),
  ];
}

function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

/** Whole orders by touch and by key in turn; the weight comes from the simulated scale. */
async function wholeOrders(browser: Browser, server: ServerProcess): Promise<readonly Figure[]> {
  const hands = new BenchClient(server.url, 'bench-1');
  await hands.at('idle');
  const { page } = await slowPage(browser);
  await page.goto(`${server.url}/bench/bench-1`);
  await page.waitForFunction('window.measured.ready !== null', null, { timeout: 60_000 });
  let inputs = 0;
  for (let order = 0; order < ORDERS; order++) {
    for (let guard = 0; guard < 120; guard++) {
      const view = hands.view;
      const seq = view?.seq ?? 0;
      if (view?.task.at === 'done' && guard > 0) break;
      if (view?.task.at === 'weigh') {
        await hands.emptyPan();
        await hands.simulate({ do: 'put-expected' });
      } else {
        const which = view?.confirming === null ? (view.task.at === 'decide' ? way(view.commands) : 'next') : 'confirm';
        await press(page, which, inputs);
        inputs += 1;
      }
      await hands.until((client) => (client.view?.seq ?? 0) > seq, 'the next step', 20_000);
      await page.waitForTimeout(700);
    }
  }
  const { events, views } = await measured(page);
  await page.context().close();
  hands.close();
  // One touch is several events: the longest of them is what was felt (Event Timing: one interactionId).
  const felt = new Map<number, number>();
  for (const { interactionId, duration } of events) {
    felt.set(interactionId, Math.max(felt.get(interactionId) ?? 0, duration));
  }
  // What is under 16 ms is not told: those count as 16.
  const all = [...felt.values(), ...Array.from({ length: Math.max(0, inputs - felt.size) }, () => 16)];
  const slowed = `${String(inputs)} inputs by touch and key over ${String(ORDERS)} orders, processor slowed ${String(SLOW_DOWN)} times`;
  return [
    atMost({
      bench: BENCH,
      name: 'input to next paint, p95',
      value: quantile(all, 0.95),
      unit: 'ms',
      goal: 100,
      against: `${slowed}; Event Timing, in steps of 8 ms: the paint that shows the input is taken`,
    }),
    atMost({
      bench: BENCH,
      name: 'input to the next step painted, p95',
      value: quantile(views, 0.95),
      unit: 'ms',
      goal: 100,
      against: `${slowed}; ${String(views.length)} of them, to the server on the same computer, stored, and back`,
    }),
    plain({
      bench: BENCH,
      name: 'the same, p50',
      value: quantile(views, 0.5),
      unit: 'ms',
      against: slowed,
    }),
  ];
}

function way(commands: readonly string[]): string {
  return commands.includes('pay-next-bracket') ? 'pay-next-bracket' : 'next';
}

async function press(page: Page, command: string, turn: number): Promise<void> {
  if (command === 'next' && turn % 2 === 1) await page.keyboard.press('PageDown');
  else if (command === 'confirm' && turn % 2 === 1) await page.keyboard.press('ArrowRight');
  else await page.locator(`[data-command="${command}"]`).first().click();
}
