import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { parseMass } from '#shared/units/mass.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, untilTask, watchErrors } from '#tests/support/browser.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('usb-scale');
let browser: Browser;
let server: Awaited<ReturnType<typeof serverOn>>;
let bench: BenchClient;

beforeAll(async () => {
  browser = await openBrowser();
  const config = copyOfConfig();
  edit(config, 'devices.yaml', 'transport: { kind: simulated }', 'transport: { kind: hid-on-screen }');
  edit(config, 'devices.yaml', 'protocol: continuous', 'protocol: hid');
  server = await serverOn(config, data.path);
  bench = new BenchClient(server.url, 'bench-1');
  await bench.at('idle');
});

afterAll(async () => {
  bench.close();
  await browser.close();
  await server.stop();
  data.remove();
  removeConfigFolders();
});

/** The page's hands on the stand-in for the USB socket. */
interface Socket {
  allow(): void;
  /** sends this report again and again, as such scales do, while it is plugged in */
  report(bytes: readonly number[]): void;
  unplug(): void;
  plug(): void;
}

/** What stands in for the browser's WebHID: one scale that must be allowed first. Everything behind it is real. */
function standIn(): void {
  const hid = Object.assign(new EventTarget(), {
    allowed: false,
    asked: [] as unknown[],
    getDevices: () => Promise.resolve(hid.allowed && plugged ? [device] : []),
    requestDevice(options: unknown) {
      hid.asked.push(options);
      hid.allowed = true;
      return Promise.resolve([device]);
    },
  });
  let plugged = true;
  const told: number[][] = [];
  const device = Object.assign(new EventTarget(), {
    productName: 'bench scale',
    opened: false,
    // As a browser tells of a device: its control report, number 2, has Enforced Zero Return and Zero Scale.
    collections: [
      {
        usagePage: 0x8d,
        featureReports: [{ reportId: 2, items: [{ usages: [0x8d0081, 0x8d0080], reportSize: 1, reportCount: 2 }] }],
      },
    ],
    receiveFeatureReport: () => Promise.resolve(new DataView(Uint8Array.of(2, 0b01).buffer)),
    sendFeatureReport(reportId: number, bytes: Uint8Array) {
      told.push([reportId, ...bytes]);
      return Promise.resolve();
    },
    open() {
      device.opened = true;
      return Promise.resolve();
    },
    close() {
      device.opened = false;
      return Promise.resolve();
    },
  });
  Object.defineProperty((globalThis as unknown as { navigator: object }).navigator, 'hid', { value: hid });
  let sending: readonly number[] = [];
  setInterval(() => {
    const [reportId, ...rest] = sending;
    if (reportId === undefined || !plugged || !device.opened) return;
    const data = new DataView(Uint8Array.from(rest).buffer);
    device.dispatchEvent(Object.assign(new Event('inputreport'), { reportId, data }));
  }, 50);
  const socket: Socket = {
    allow: () => (hid.allowed = true),
    report: (bytes) => (sending = bytes),
    unplug() {
      plugged = false;
      device.opened = false;
      hid.dispatchEvent(Object.assign(new Event('disconnect'), { device }));
    },
    plug() {
      plugged = true;
      hid.dispatchEvent(Object.assign(new Event('connect'), { device }));
    },
  };
  Object.assign(globalThis, { usbSocket: socket, usbAsked: hid.asked, usbTold: told });
}

const hands = (page: Page) => ({
  do: (what: 'unplug' | 'plug' | 'allow') =>
    page.evaluate((name) => (globalThis as unknown as { usbSocket: Socket }).usbSocket[name](), what),
  report: (bytes: readonly number[]) =>
    page.evaluate((each) => (globalThis as unknown as { usbSocket: Socket }).usbSocket.report(each), bytes),
});
const OUNCES_15_9 = [3, 4, 11, 0xff, 159, 0];
const weighs = () => bench.until(({ live }) => live?.reading?.mass === parseMass('15.9 oz'), 'the weight');

it('a scale at the tablet is allowed once, weighs, is told lost when unplugged, and comes back by itself', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.addInitScript(standIn);
  await page.goto(`${server.url}/bench/bench-1`);
  await untilTask(page, 'idle');
  const line = page.locator('[data-usb-scale="none"]');
  await line.waitFor();
  const button = page.locator('[data-do="usb-scale"]');
  expect((await button.boundingBox())?.height).toBeGreaterThanOrEqual(64);
  await button.click();
  await line.waitFor({ state: 'detached' });
  expect(await page.evaluate(() => (globalThis as unknown as { usbAsked: unknown }).usbAsked)).toEqual([
    { filters: [{ usagePage: 0x8d }] },
  ]);
  const socket = hands(page);
  await socket.report(OUNCES_15_9);
  await weighs();
  await page.locator('[data-device="scale"][data-state="working"]').waitFor();

  // The bench zeroes it through the page, and what else stands in that report stays.
  const zeroed = await fetch(`${server.url}/api/devices/bench-1/zero`, { method: 'POST' });
  expect(await zeroed.json()).toEqual({ outcome: 'sent' });
  await page.waitForFunction(() => (globalThis as unknown as { usbTold: number[][] }).usbTold.length > 0);
  expect(await page.evaluate(() => (globalThis as unknown as { usbTold: unknown }).usbTold)).toEqual([[2, 0b11]]);

  await socket.do('unplug');
  await bench.until(({ devices }) => devices[0]?.state === 'lost', 'the loss');
  await line.waitFor();
  await socket.do('plug');
  await line.waitFor({ state: 'detached' });
  await socket.report([3, 4, 11, 0xff, 160, 0]);
  await bench.until(({ live }) => live?.reading?.mass === parseMass('16 oz'), 'the weight again');

  // A second page of the bench with a scale of its own: told, not mixed.
  const second = await browser.newPage();
  await second.addInitScript(standIn);
  await second.addInitScript(() => (globalThis as unknown as { usbSocket: Socket }).usbSocket.allow());
  await second.goto(`${server.url}/bench/bench-1`);
  await second.locator('[data-usb-scale="held"]').waitFor();
  await page.close();
  await bench.until(({ devices }) => devices[0]?.state === 'lost', 'the loss with the page');
  await second.locator('[data-usb-scale="held"]').waitFor({ state: 'detached' });
  await hands(second).report(OUNCES_15_9);
  await weighs();
  await second.close();

  const without = await browser.newPage();
  await without.addInitScript(
    () =>
      void Object.defineProperty((globalThis as unknown as { navigator: object }).navigator, 'hid', {
        value: undefined,
      }),
  );
  await without.goto(`${server.url}/bench/bench-1`);
  await without.locator('[data-usb-scale="not-offered"]').waitFor();
  await without.close();
  expect(errors).toEqual([]);
});
