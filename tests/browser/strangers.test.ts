import { createHash, X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pino } from 'pino';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { reachableAddresses } from '#server/network/addresses.ts';
import { simulate } from '#server/realtime/simulate.ts';
import { startServer, type Running } from '#server/server.ts';
import { welcomeLines } from '#server/welcome-lines.ts';
import { OFFICE_PARTS, type OfficePart } from '#station-ui/i18n/office-words.ts';
import { openBrowser, untilTask, watchErrors } from '#tests/support/browser.ts';
import { photograph } from '#tests/support/camera/photograph.ts';
import { printedSymbol } from '#tests/support/camera/symbol.ts';
import { writeVideo } from '#tests/support/camera/video.ts';
import { removeConfigFolders } from '#tests/support/config-folder.ts';
import { hostileConfig, seedHostile } from '#tests/support/hostile-shop.ts';
import { HOSTILE_TEXTS } from '#tests/support/hostile-texts.ts';
import { marked, textsOf } from '#tests/support/marked.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

// A shop that is open to the network, in a browser that trusts its authority alone, with hostile texts wherever one can stand.

const data = temporaryFolder('strangers');
const PIN = '730164';
let server: Running;
let browser: Browser;
let lines: readonly string[];
let ids: readonly string[];
const errors: (readonly string[])[] = [];
const dialogs: string[] = [];

/** As another computer comes: by the network, not by the loopback, whose side is trusted more. */
const [host = ''] = reachableAddresses();
const atNetwork = it.skipIf(host === '');
const at = (path: string) => `https://${host}:${String(server.port)}${path}`;
const trustAt = (path: string) => `http://${host}:${String(server.trust?.port)}${path}`;

/** RFC 7469, 2.4: the digest of the public key's own DER. */
function pinOf(pem: Buffer): string {
  const key = new X509Certificate(pem).publicKey.export({ type: 'spki', format: 'der' });
  return createHash('sha256').update(key).digest('base64');
}

/** Somebody's badge held before the tablet's camera, never quite still. */
function badgeOnVideo(file: string): string {
  const badge = printedSymbol('code128', 'ZQ-BADGE-8');
  const size = { width: 960, height: 540 } as const;
  const shots = [0, 1, 2, 3].map((n) =>
    photograph(badge, {
      ...size,
      moduleWidth: 3,
      blur: 0.8,
      noise: 5,
      offset: { x: 5 * n, y: 3 * n },
      turn: n,
      seed: n + 1,
    }),
  );
  return writeVideo(file, { ...size, perSecond: 4 }, shots);
}

beforeAll(async () => {
  const config = hostileConfig();
  const settings = {
    host: '0.0.0.0',
    port: 0,
    trustPort: 0,
    data: data.path,
    config,
    database: null,
    log: 'file',
  } as const;
  server = await startServer({
    settings,
    pages: resolve('build/ui'),
    templates: resolve('config'),
    log: pino({ level: 'silent' }),
  });
  lines = await welcomeLines(server, settings);
  ids = await seedHostile(server.store, Date.now());
  // As a tablet that trusts the authority: what the authority has issued is taken, and no other.
  const [authority, leaf] = ['authority', 'server'].map((name) =>
    readFileSync(join(data.path, `certificates/${name}.crt`)),
  ) as [Buffer, Buffer];
  expect(new X509Certificate(leaf).verify(new X509Certificate(authority).publicKey)).toBe(true);
  browser = await openBrowser([
    `--ignore-certificate-errors-spki-list=${pinOf(leaf)}`,
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-video-capture=${badgeOnVideo(join(data.path, 'camera.y4m'))}`,
  ]);
});
afterAll(async () => {
  await server.stop();
  data.remove();
  removeConfigFolders();
  await browser.close();
});

async function pageOf(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  errors.push(watchErrors(page));
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  return page;
}

let office: Page;

atNetwork('a tablet is led to HTTPS, learns to trust the shop, and is shown nothing until it is paired', async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en' });
  const tablet = await pageOf(context);
  await tablet.goto(trustAt('/'));
  expect(await tablet.locator('code').textContent()).toBe(server.trust?.fingerprint);
  expect(await tablet.locator('a.button').count()).toBe(2);
  await tablet.goto(trustAt('/bench/bench-1'));
  expect(tablet.url()).toBe(at('/bench/bench-1'));
  await tablet.locator('[data-door=pair]').waitFor();
  const secure = await tablet.evaluate(() => {
    const { isSecureContext, navigator } = globalThis as unknown as {
      isSecureContext: boolean;
      navigator: { mediaDevices?: object };
    };
    return { isSecureContext, camera: navigator.mediaDevices !== undefined };
  });
  expect(secure).toEqual({ isSecureContext: true, camera: true });
  await expect(tablet.request.get(`http://${host}:${String(server.port)}/bench/bench-1`)).rejects.toThrow();

  office = await pageOf(await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en' }));
  await office.goto(at('/office'));
  const code = /PIN in the office: (\d{4} \d{4})/.exec(lines.join('\n'))?.[1] ?? '';
  const setUp = office.locator('[data-door=set-up]');
  await setUp.locator('[name=code]').fill(code);
  await setUp.locator('[name=person]').selectOption('maren');
  for (const field of await setUp.locator('input[type=password]').all()) await field.fill(PIN);
  await setUp.locator('[type=submit]').click();
  const signIn = office.locator('[data-door=sign-in]');
  await signIn.locator('input[type=password]').fill(PIN);
  await signIn.locator('[type=submit]').click();
  await office.locator('[data-door=in]').waitFor();

  await office.goto(at('/office#access'));
  const compared = (await office.locator('[data-rights=trust] .fingerprint').textContent()) ?? '';
  expect(compared.replaceAll(/\s/g, '')).toBe(server.trust?.fingerprint);
  await office.locator('[data-rights=pair]').click();
  const shown = office.locator('[data-rights=code]');
  const digits = ((await shown.textContent()) ?? '').replace(/\D/g, '').slice(0, 8);
  // Somebody who is called as a script is, and has a PIN, stands at the bench's door.
  await server.entry.setPin('zq-8', '918273');
  for (const digit of digits) await tablet.locator(`[data-digit="${digit}"]`).click();
  await tablet.locator('[data-door-key=done]').click();
  await tablet.locator('[data-door=badge]').waitFor();
  // The door says which bench it is by its name.
  await expect.poll(() => tablet.locator('.who').textContent()).toContain(server.shop.benches[0]?.name);
  expect(await tablet.locator('.who').textContent()).not.toContain('bench-1');
  expect(await marked(tablet)).toEqual([]);
  const sockets: string[] = [];
  tablet.on('websocket', (socket) => sockets.push(socket.url()));
  await tablet.locator('[data-person=zq-8]').waitFor();
  await tablet.locator('[data-switch=camera]').click();
  await untilTask(tablet, 'idle');

  // A run at the paired bench, over wss, with the hostile order that leaves first.
  const station = server.stations.get('bench-1');
  if (station === undefined) throw new Error('no bench');
  const mine = ids[8] ?? '';
  await simulate(station, server.shop, { do: 'scan', text: `BFO-${mine}` });
  await untilTask(tablet, 'gather');
  expect(await textsOf(tablet)).toContain(HOSTILE_TEXTS[8]?.text);
  expect(await marked(tablet)).toEqual([]);
  const { run } = station;
  for (let turn = 0; turn < 40 && run.state.step.at !== 'weigh'; turn++) {
    const { seq } = run;
    await tablet.keyboard.press(' ');
    await expect.poll(() => run.seq, { interval: 20 }).toBeGreaterThan(seq);
  }
  await untilTask(tablet, 'weigh');
  expect(await marked(tablet)).toEqual([]);
  await tablet.reload();
  await untilTask(tablet, 'weigh');
  expect(sockets.length).toBeGreaterThan(0);
  expect(sockets.filter((url) => !url.startsWith(at('/').replace('https', 'wss')))).toEqual([]);
  await tablet.close();
});

/** Parts of the office that have hostile texts to show. */
const SHOWS: readonly OfficePart[] = ['orders', 'hand-over', 'people', 'access', 'import'];

atNetwork('no page of the office makes more of a hostile text than a text', async () => {
  let pending = 0;
  office.on('request', () => (pending += 1));
  office.on('requestfinished', () => (pending -= 1));
  office.on('requestfailed', () => (pending -= 1));
  const quiet = async () => {
    await office.waitForTimeout(30);
    await expect.poll(() => pending, { interval: 20 }).toBeLessThanOrEqual(0);
    await office.waitForTimeout(30);
  };
  const shown: string[] = [];
  const turnTo = async (part: string) => {
    await office.goto(at(`/office#${part}`));
    await quiet();
    expect({ part, marked: await marked(office) }).toEqual({ part, marked: [] });
    if (/zqmark/i.test(await textsOf(office))) shown.push(part);
  };
  for (const part of OFFICE_PARTS) await turnTo(part);
  for (const index of [8, 9, 10, 11, 12, 13]) await turnTo(`order/${encodeURIComponent(ids[index] ?? '')}`);
  expect(shown).toEqual(expect.arrayContaining([...SHOWS.filter((part) => part !== 'import')]));

  // A file with a hostile name is looked at, refused lines and all.
  await office.goto(at('/office#import'));
  const cell = (text: string) => `"${text.replaceAll('"', '""')}"`;
  const rows = HOSTILE_TEXTS.filter(({ text }) => text.length < 500 && !text.includes('\0')).map(({ text }, index) =>
    [`Z${String(index)}`, text, text, text, '55802', '2027-01-05', text].map(cell).join(','),
  );
  await office
    .locator('input[type=file]')
    .first()
    .setInputFiles({
      name: '<img class="zqmark" src=x onerror="window.zqmark=1">.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(`order,sku,buyer,street,postcode,ship by,note\r\n${rows.join('\r\n')}\r\n`),
    });
  await expect.poll(async () => (await textsOf(office)).includes('onerror=')).toBe(true);
  await quiet();
  expect(await marked(office)).toEqual([]);
  await office.locator('bf-search input').fill('zqmark');
  await quiet();
  await expect.poll(async () => (await textsOf(office)).includes('Zqmark')).toBe(true);
  expect(await marked(office)).toEqual([]);
  expect(dialogs).toEqual([]);
  expect(errors.flat().filter((error) => !/401|favicon/.test(error))).toEqual([]);
});
