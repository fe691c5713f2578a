import { spawnSync } from 'node:child_process';
import { join, resolve } from 'node:path';
import { BenchClient } from '../support/bench-client.ts';
import { openBrowser } from '../support/browser.ts';
import { photograph } from '../support/camera/photograph.ts';
import { printedSymbol } from '../support/camera/symbol.ts';
import { writeVideo } from '../support/camera/video.ts';
import { startProcess, temporaryFolder } from '../support/server-process.ts';
import { commandCode } from '#shared/codes/our-codes.ts';
import { plain, type Figure } from './figure.ts';

const SIZE = { width: 960, height: 540 };
const TIMES = 5;

/** From the touch that switches the camera on to the first code taken, in a browser whose camera is a file. */
export async function cameraFirstRead(): Promise<readonly Figure[]> {
  spawnSync(process.execPath, [resolve(import.meta.dirname, '../../server/build.mjs')], { stdio: 'inherit' });
  const data = temporaryFolder('camera-bench');
  const server = await startProcess({ data: data.path });
  const hands = new BenchClient(server.url, 'bench-1');
  await hands.at('idle');
  const printed = printedSymbol('code128', commandCode('repeat'));
  const pictures = Array.from({ length: 8 }, (_, n) =>
    photograph(printed, { ...SIZE, moduleWidth: 3, blur: 0.8, noise: 5, turn: 2 * Math.sin(n), seed: n + 1 }),
  );
  const file = writeVideo(join(data.path, 'camera.y4m'), { ...SIZE, perSecond: 4 }, pictures);
  const browser = await openBrowser([
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-video-capture=${file}`,
  ]);
  const times: number[] = [];
  try {
    for (let time = 0; time < TIMES; time++) {
      const page = await browser.newPage();
      await page.goto(`${server.url}/bench/bench-1`);
      await page.locator('[data-link="up"]').waitFor();
      const from = performance.now();
      await page.locator('[data-switch="camera"]').click();
      await page.locator('[data-seen="taken"]').waitFor();
      times.push(performance.now() - from);
      await page.close();
    }
  } finally {
    await browser.close();
    hands.close();
    await server.stop();
    data.remove();
  }
  times.sort((a, b) => a - b);
  const against = `${String(TIMES)} times, the camera a file of 4 pictures a second, two of which must agree`;
  return [
    plain({
      bench: 'devices',
      name: 'camera: from the touch to the first code taken, median',
      value: times[Math.floor(TIMES / 2)] ?? Number.NaN,
      unit: 'ms',
      against,
    }),
  ];
}
