import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { MomentKeeper } from '#tests/support/bench-moments.ts';
import { lookAt, mountBench, showMoment } from '#tests/support/bench-on-show.ts';
import type { Moment } from '#tests/support/bench-on-show.ts';
import { openBrowser, watchErrors } from '#tests/support/browser.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { keepPicture } from '#tests/support/keep-picture.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { arcMinutes, capitalHeight, pixelMillimetres } from '#tests/support/visual-angle.ts';
import { violations } from '#tests/support/violations.ts';
import type { Running } from '#server/server.ts';
import { LANGUAGES } from '#shared/words/language.ts';

// Everything that a bench can show, as a real server sent it: each moment in both languages on three tablets, with a
// picture of each for whoever asks for them. Light and dark take turns, so that each moment is seen in both.

const SIZES = [
  [1280, 800],
  [800, 1280],
  [1024, 600],
] as const;

const data = temporaryFolder('bench-states');
let browser: Browser;
let running: Running & { readonly url: string };
let page: Page;
let errors: readonly string[];
const moments = new Map<string, Moment>();

beforeAll(async () => {
  running = await serverOn(CONFIG, data.path);
  const hands = new BenchClient(running.url, 'bench-1');
  const keeper = new MomentKeeper(hands);
  await keeper.keepAll();
  hands.close();
  for (const [name, moment] of keeper.moments) moments.set(name, moment);
  browser = await openBrowser();
  page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.emulateMedia({ reducedMotion: 'reduce' });
  errors = watchErrors(page);
  await mountBench(page, running.url);
});

afterAll(async () => {
  await browser.close();
  await running.stop();
  data.remove();
});

/** Panels that the page opens by itself over whatever the bench shows. */
const PANELS: readonly (readonly [name: string, over: string, button: string])[] = [
  ['how it speaks', 'gather', '[data-switch="speech"]'],
  ['why it is set aside', 'gather', '[data-command="set-aside"]'],
];

it('every moment breaks no rule, is large enough and shows every word, in both languages on three tablets', async () => {
  expect([...moments.keys()]).toEqual(
    expect.arrayContaining(['idle', 'gather', 'look-over', 'fold', 'fill', 'weigh', 'seal', 'label', 'done']),
  );
  const found: Record<string, readonly string[]> = {};
  let seq = 1_000_000;
  let rules: 'all' | 'not colours' = 'all';
  const look = async (name: string, size: string): Promise<void> => {
    await keepPicture(page, `${name}, ${size}`, false);
    const wrong = [...(await lookAt(page)), ...(await violations(page, rules))];
    if (wrong.length > 0) found[`${name}, ${size}`] = wrong;
  };
  for (const [at, [width, height]] of SIZES.entries()) {
    await page.setViewportSize({ width, height });
    // On two tablets each moment was seen in both themes.
    rules = at < 2 ? 'all' : 'not colours';
    const size = `${String(width)}x${String(height)}`;
    for (const [of, language] of LANGUAGES.entries()) {
      const theme = (at + of) % 2 === 0 ? 'light' : 'dark';
      const show = (moment: Moment) => {
        seq += 1;
        return showMoment(page, { ...moment, view: { ...moment.view, language, seq } }, theme);
      };
      for (const [name, moment] of moments) {
        await show(moment);
        await look(`${name}, ${language}`, size);
      }
      for (const [name, over, button] of PANELS) {
        const moment = moments.get(over);
        if (moment === undefined) throw new Error(`nothing was kept of ${over}`);
        await show(moment);
        await page.locator(button).first().click();
        await look(`${name}, ${language}`, size);
      }
      // A first order is packed with the drawer of the simulated devices open.
      await page.locator('[data-tray="tab"]').click();
      for (const name of ['gather', 'look-over']) {
        const moment = moments.get(name);
        if (moment === undefined) throw new Error(`nothing was kept of ${name}`);
        await show(moment);
        await look(`${name} beside the drawer, ${language}`, size);
      }
      await page.locator('[data-tray="tab"]').click();
    }
  }
  expect(found).toEqual({});
  expect(errors).toEqual([]);
});

/** As tablets of these pixels are sold (common practice, no source); the smaller one is for a metre. */
const INCHES = [10.1, 10.1, 7] as const;
const MAIN_LINE_AT = [1500, 1500, 1000] as const;
/** ISO 9241-303, height of capitals: 20 to 22 minutes of arc preferred, 16 the least (from memory). */
const LEAST = 16;

it('the main line is read at a metre and a half, figures at a metre, commands where they are touched', async () => {
  // Seen under 16 minutes at 1.5 m: 6.98 mm (computed by hand).
  expect(arcMinutes(6.98, 1500)).toBeCloseTo(16, 1);
  const table: Record<string, number> = {};
  const small: string[] = [];
  for (const [at, [width, height]] of SIZES.entries()) {
    await page.setViewportSize({ width, height });
    const pixel = pixelMillimetres(width, height, INCHES[at] ?? 0);
    const parts = [
      ['main line', 'gather', 'h1', MAIN_LINE_AT[at] ?? 0],
      ['long main line', 'fold', 'h1', MAIN_LINE_AT[at] ?? 0],
      ['mass', 'weigh', 'bf-weigh-line .mass', 1000],
      ['postcode', 'label', 'bf-task-label .postcode', 1500],
      ['main command', 'weigh', '[data-command] b', 500],
      ['other commands', 'weigh', '[data-command]:nth-child(2) b', 500],
    ] as const;
    for (const [part, name, selector, distance] of parts) {
      const moment = moments.get(name);
      if (moment === undefined) throw new Error(`nothing was kept of ${name}`);
      await showMoment(page, moment, 'light');
      const seen = arcMinutes((await capitalHeight(page, selector)) * pixel, distance);
      const said = `${part}, ${String(width)}x${String(height)}, ${String(distance)} mm`;
      if (name === 'fold' && width === 1280) expect(await highestCommand(page), 'two lines').toBeLessThan(2.5 * 23);
      table[said] = Math.round(seen * 10) / 10;
      if (seen < LEAST) small.push(`${said}: ${seen.toFixed(1)}`);
    }
  }
  if (process.env['BENCHFOLD_FIGURES'] !== undefined) console.log(table);
  expect(small).toEqual([]);
});

/** How high the words of the highest command are, in pixels. */
async function highestCommand(of: Page): Promise<number> {
  const boxes = await Promise.all((await of.locator('[data-command] b').all()).map((each) => each.boundingBox()));
  return Math.max(...boxes.map((box) => box?.height ?? Infinity));
}

it('the office breaks no rule either', async () => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.goto(`${running.url}/office`);
  await page.getByText('4101').first().waitFor();
  expect(await violations(page)).toEqual([]);
});
