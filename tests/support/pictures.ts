/**
 * Takes the pictures of the README from the running demo: `npx tsx tests/support/pictures.ts`. The bench packs one order
 * by its own devices, so that what the pictures show is what a packer sees.
 */
import { spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { BenchClient } from './bench-client.ts';
import { openBrowser, untilTask } from './browser.ts';
import { startProcess, temporaryFolder } from './server-process.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import { massDigits, massFromBase } from '#shared/units/mass.ts';

const FOLDER = resolve(import.meta.dirname, '../../station-ui/pictures');
const LARGEST = 140_000;
/** An order of the demo with a shirt in it, and which of its folds is drawn. */
const ORDER = process.argv[2] ?? '4151';
const STEP = Number(process.argv[3] ?? '3');
/** 1280 x 800 becomes 960 x 600. */
const SCALE = 0.75;

const settled = () => new Promise((done) => setTimeout(done, 1500));

async function take(page: Page, name: string): Promise<void> {
  await settled();
  const path = resolve(FOLDER, `${name}.png`);
  await page.screenshot({ path });
  const { size } = statSync(path);
  if (size > LARGEST) throw new Error(`${name}.png has ${String(size)} bytes, more than ${String(LARGEST)}`);
  console.log(`${name}.png ${String(size)} bytes`);
}

/** Says "next item" until the bench is where the picture is taken. */
async function goOn(bench: BenchClient, there: () => boolean): Promise<void> {
  for (let guard = 0; guard < 80 && !there(); guard++) {
    const seq = bench.view?.seq ?? 0;
    const ack = await bench.command(bench.view?.confirming === null ? 'next' : 'confirm');
    if (!ack.ok) throw new Error(ack.message);
    await bench.until(({ view }) => (view?.seq ?? 0) > seq, 'the next step');
  }
  if (!there()) throw new Error(`the bench stands at ${bench.view?.task.at ?? 'nothing'}`);
}

spawnSync(process.execPath, [resolve(import.meta.dirname, '../../server/build.mjs')], { stdio: 'inherit' });
const data = temporaryFolder('pictures');
const server = await startProcess({ data: data.path });
const bench = new BenchClient(server.url, 'bench-1');
const browser = await openBrowser();
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 }, deviceScaleFactor: SCALE });
  await page.goto(`${server.url}/bench/bench-1`);
  await untilTask(page, 'idle');
  // One touch, as the browser wants it before it lets the bench sound.
  await page.mouse.click(640, 780);
  await bench.simulate({ do: 'scan', text: orderCode(ORDER) });
  await untilTask(page, 'gather');
  await goOn(bench, () => bench.view?.task.at === 'fold' && bench.view.task.step === STEP);
  await take(page, 'bench-fold');

  await goOn(bench, () => bench.view?.task.at === 'weigh');
  const { weigh } = bench.view ?? {};
  const ceiling = weigh?.brackets[weigh.planned]?.ceiling ?? 0;
  await bench.emptyPan();
  await bench.simulate({
    do: 'put-mass',
    mass: `${massDigits(massFromBase(ceiling - (weigh?.toCome ?? 0)), 'oz', 1)} oz`,
  });
  await untilTask(page, 'decide');
  await goOn(bench, () => bench.view?.task.at === 'decide' && bench.view.task.because === 'close');
  await bench.until(({ view }) => view?.slip === 'printed', 'the slip');
  await take(page, 'bench-close');

  await page.goto(`${server.url}/office`);
  await page.locator('table').first().waitFor();
  await take(page, 'office');
} finally {
  bench.close();
  await browser.close();
  await server.stop();
  data.remove();
}
