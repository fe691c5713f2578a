import type { Page } from 'playwright-core';
import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';
import { atMost, plain, type Figure } from './figure.ts';
import { openBrowser } from '#tests/support/browser.ts';
import { manyOrders } from '#tests/support/many-orders.ts';
import { startProcess, temporaryFolder } from '#tests/support/server-process.ts';

const ORDERS = 2000;
const ROUNDS = 5;

/** From an input to the paint after it, as the page itself sees them. */
const WATCH = `
  window.painted = [];
  for (const type of ['click', 'input', 'wheel']) {
    addEventListener(type, (event) => {
      const from = event.timeStamp;
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => window.painted.push({ type, took: performance.now() - from });
        port2.postMessage(null);
      });
    }, { capture: true, passive: true });
  }
`;

interface Painted {
  readonly type: string;
  readonly took: number;
}

/** A day board of 2,000 open orders: sorted, narrowed by a collection and by typing, and scrolled. */
export async function dayBoard(): Promise<Figure[]> {
  execFileSync(process.execPath, [resolve(import.meta.dirname, '../../server/build.mjs')]);
  const data = temporaryFolder('day-bench');
  await manyOrders(data.path, ORDERS, Date.now() + 24 * 3_600_000);
  const server = await startProcess({ data: data.path });
  const browser = await openBrowser();
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.addInitScript(WATCH);
    await page.goto(`${server.url}/office#day`);
    await page.locator('bf-data-table[file=day] tbody tr').first().waitFor();
    for (let round = 0; round < ROUNDS; round++) await interact(page);
    const painted = await page.evaluate<Painted[]>('window.painted');
    const times = painted.map(({ took }) => took).sort((a, b) => a - b);
    const slowest = ['click', 'input', 'wheel'].map((type) => {
      const most = Math.max(...painted.filter((each) => each.type === type).map(({ took }) => took));
      return `${type} ${most.toFixed(0)}`;
    });
    const at = (part: number) => times[Math.min(times.length - 1, Math.floor(times.length * part))] ?? NaN;
    const against = `${String(times.length)} clicks, keys and turns of the wheel in Chromium, 1280 x 800; slowest in ms: ${slowest.join(', ')}`;
    const common = { bench: 'office', unit: 'ms', against };
    return [
      plain({ ...common, name: `day board of ${String(ORDERS)} open orders, input to paint, p50`, value: at(0.5) }),
      atMost({ ...common, name: 'the same, p95', value: at(0.95), goal: 100 }),
      plain({ ...common, name: 'the same, p99', value: at(0.99) }),
    ];
  } finally {
    await browser.close();
    await server.stop();
    data.remove();
  }
}

async function interact(page: Page): Promise<void> {
  const settled = () => page.waitForTimeout(120);
  for (const by of ['risk', 'buyer', 'pieces', 'id']) {
    await page.locator(`bf-data-table[file=day] [data-sort=${by}]`).click();
    await settled();
  }
  for (let turn = 0; turn < 2; turn++) {
    await page.locator('[data-only]').first().click();
    await settled();
  }
  await page.locator('[data-table-filter]').pressSequentially('buyer 19', { delay: 60 });
  await page.locator('[data-table-filter]').fill('');
  await page.mouse.move(640, 500);
  for (let turn = 0; turn < 5; turn++) {
    await page.mouse.wheel(0, 400);
    await settled();
  }
  await page.mouse.wheel(0, -4000);
  await settled();
}
