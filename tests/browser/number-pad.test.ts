import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, untilTask, watchErrors } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { chain, mixed, noise, silence, speak } from '#tests/support/speech.ts';
import { PHRASES } from '#shared/voice/phrases.ts';
import { digitWords } from '#shared/voice/number-words.ts';
import type { VoiceView } from '#shared/wire/voice.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** Where the pictures go for somebody who looks at them. */
const PICTURES = process.env['BENCHFOLD_PICTURES'];
const SIZES = [
  [1280, 800],
  [800, 1280],
  [1024, 600],
] as const;
const data = temporaryFolder('number-pad');
let browser: Browser;
let server: ServerProcess;
let hands: BenchClient;

beforeAll(async () => {
  browser = await openBrowser();
  server = await startProcess({ data: data.path });
  hands = new BenchClient(server.url, 'bench-1');
  await hands.at('idle');
});

afterAll(async () => {
  hands.close();
  await browser.close();
  await server.stop();
  data.remove();
});

/** The next order on the bench, packed up to its label. */
async function toLabel(): Promise<string> {
  await hands.command('next');
  await hands.at('gather');
  for (let turn = 0; turn < 60 && hands.view?.task.at !== 'weigh'; turn += 1) await hands.command('next');
  await hands.emptyPan();
  await hands.simulate({ do: 'put-expected' });
  for (let turn = 0; turn < 60 && hands.view?.task.at !== 'seal'; turn += 1) {
    await new Promise((soon) => setTimeout(soon, 100));
    if (hands.view?.confirming !== null) await hands.command('confirm');
    else if (hands.view.task.at === 'decide')
      await hands.command(hands.view.commands.includes('pay-next-bracket') ? 'pay-next-bracket' : 'next');
  }
  await hands.at('seal');
  await hands.command('next');
  const { task } = await hands.at('label');
  if (task.at !== 'label') throw new Error('no label');
  return task.postcode;
}

const entered = (): string | null =>
  hands.view?.task.at === 'label' && hands.view.task.entering !== undefined ? hands.view.task.entering : null;
const untilEntered = (digits: string | null) => hands.until(() => entered() === digits, `the digits ${String(digits)}`);

async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE);
  const results = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run: (options: unknown) => Promise<AxeResults> } }).axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    }),
  );
  return results.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join('; ')}`);
}

/** Every digit lies whole inside its frame, and every key inside the middle of the screen; the keys are large enough. */
async function misplaced(page: Page): Promise<readonly string[]> {
  const pad = await page.locator('bf-number-pad').boundingBox();
  const row = await page.locator('[data-digits]').boundingBox();
  const wrong: string[] = [];
  for (const part of await page.locator('bf-number-pad').locator('[data-digit], [data-digits] b').all()) {
    const box = await part.boundingBox();
    const name = await part.innerText();
    const key = (await part.getAttribute('data-digit')) !== null;
    const place = key ? pad : row;
    const inside =
      box !== null &&
      place !== null &&
      box.y >= place.y - 1 &&
      box.y + box.height <= place.y + place.height + 1 &&
      box.x + box.width <= place.x + place.width + 1;
    if (!inside) wrong.push(`${name} is not inside`);
    if (key && box !== null && (box.width < 64 || box.height < 64)) wrong.push(`${name} is too small`);
  }
  return wrong;
}

it('a label that cannot be scanned is entered by touch, by keys and by voice', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const errors = watchErrors(page);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`${server.url}/bench/bench-1`);
  const due = await toLabel();
  await untilTask(page, 'label');
  const digit = (which: string) => page.locator(`[data-digit="${which}"]`).click();
  const command = (which: string) => page.locator(`[data-command="${which}"]`).click();

  // Typed where nothing is being entered, a digit is nothing.
  await page.keyboard.press('Digit5');
  await page.waitForTimeout(200);
  await command('enter-number');
  await page.locator('bf-number-pad').waitFor();
  expect(entered()).toBe('');
  for (const each of '9212391234567812345670000000') await digit(each);
  await untilEntered('9212391234567812345670000000');
  for (const [language, other] of [
    ['en', 'es'],
    ['es', 'en'],
  ] as const) {
    for (const theme of ['light', 'dark']) {
      for (const [width, height] of SIZES) {
        await page.setViewportSize({ width, height });
        const name = `${language} ${theme} ${String(width)}x${String(height)}`;
        if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/number-pad ${name}.png` });
        expect([name, await misplaced(page)]).toEqual([name, []]);
      }
      expect([language, theme, await violations(page)]).toEqual([language, theme, []]);
      await page.locator('[data-switch="theme"]').click();
    }
    await page.locator('[data-switch="language"]').click();
    await page.locator(`html[lang="${other}"]`).waitFor();
  }
  await page.setViewportSize({ width: 1280, height: 800 });

  // Start over, a digit too many taken back, and the foot switch or Enter confirms.
  await command('start-over');
  await untilEntered('');
  await page.keyboard.press('Enter');
  await page.locator('bf-bench').getByText('Too few digits').waitFor();
  for (const each of `${due}0`) await digit(each);
  await untilEntered(`${due}0`);
  await command('back');
  await untilEntered(due);
  if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/number-pad postcode.png` });
  await command('confirm');
  await untilTask(page, 'done');

  // By keys: the number of a label that was never seen, then the same one on the next parcel.
  const number = '9212391234567812345670';
  await toLabel();
  await command('enter-number');
  await page.locator('bf-number-pad').waitFor();
  await page.keyboard.type(`${number.slice(0, -1)}1`, { delay: 60 });
  await untilEntered(`${number.slice(0, -1)}1`);
  await page.keyboard.press('Enter');
  await page.locator('bf-bench').getByText('check digit').waitFor();
  for (const [width, height] of SIZES) {
    await page.setViewportSize({ width, height });
    if (PICTURES !== undefined) await page.screenshot({ path: `${PICTURES}/number-pad wrong ${String(width)}.png` });
    expect([width, await misplaced(page)]).toEqual([width, []]);
  }
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Numpad0');
  await untilEntered(number);
  await page.keyboard.press('Enter');
  await untilTask(page, 'done');
  await toLabel();
  await command('enter-number');
  await page.locator('bf-number-pad').waitFor();
  await page.keyboard.type(number, { delay: 60 });
  await untilEntered(number);
  await page.keyboard.press('Enter');
  await page.locator('[data-label-stop="used"]').waitFor();
  await command('back');
  await hands.until(({ view }) => view?.task.at === 'label' && view.task.stop === undefined, 'the label step');
  await page.close();
  expect(errors).toEqual([]);

  // By voice, on the socket of a screen that does not speak. The voice is synthetic; gate and recogniser are real.
  const heard: VoiceView[] = [];
  hands.socket.on('voice', (view) => heard.push(view));
  hands.socket.emit('ear', 'on');
  await hands.until(() => heard.at(-1)?.state === 'listening', 'the recogniser', 15_000);
  const room = noise('pink', 6);
  let n = 0;
  const say = async (text: string): Promise<void> => {
    const spoken = speak({ engine: 'flite', voice: 'slt' }, text);
    const pcm = mixed(chain(silence(0.6), spoken, silence(0.7)), room, 28);
    for (let at = 0; at < pcm.length; at += 1024) {
      const bytes = new Uint8Array(pcm.slice(at, at + 1024).buffer);
      hands.socket.emit('sound', { n, rate: 16_000, pcm: bytes as unknown as ArrayBuffer }, () => undefined);
      n += 1;
      await new Promise((soon) => setTimeout(soon, 50));
    }
  };
  const here = hands.view?.task.at === 'label' ? hands.view.task.postcode : '';
  await say(PHRASES.en['enter-number']);
  await untilEntered('');
  await say('seven oh three');
  await untilEntered('703');
  await say(PHRASES.en['start-over']);
  await untilEntered('');
  const rejected = heard.at(-1)?.counts.rejected ?? 0;
  await say('the radio says it is going to rain');
  await hands.until(() => (heard.at(-1)?.counts.rejected ?? 0) > rejected, 'the talk rejected');
  expect(entered()).toBe('');
  await say(digitWords(here.slice(0, 3), 'en'));
  await untilEntered(here.slice(0, 3));
  await say(digitWords(here.slice(3), 'en'));
  await untilEntered(here);
  // Heard unsurely, a careful command is said again: the bench asks for that itself.
  for (let turn = 0; turn < 3 && hands.view?.task.at !== 'done'; turn += 1) {
    await say(PHRASES.en.confirm);
    await new Promise((soon) => setTimeout(soon, 1200));
  }
  await hands.at('done');
});
