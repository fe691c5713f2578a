import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, untilTask, watchErrors } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { chain, mixed, noise, silence, speak, writeWav } from '#tests/support/speech.ts';
import { violations } from '#tests/support/violations.ts';
import { PHRASES } from '#shared/voice/phrases.ts';
import type { VoiceView } from '#shared/wire/voice.ts';

// The voice is synthetic and the microphone is a file: the browser, the socket, the gate and the recogniser are real.

let browser: Browser | undefined;
let hands: BenchClient;
let server: ServerProcess;
let data: ReturnType<typeof temporaryFolder>;
let errors: readonly string[] = [];

beforeAll(async () => {
  data = temporaryFolder('voice');
  server = await startProcess({ data: data.path });
  hands = new BenchClient(server.url, 'bench-1');
});
afterEach(() => browser?.close());
afterAll(async () => {
  hands.close();
  await server.stop();
  data.remove();
});

const say = (text: string) => speak({ engine: 'flite', voice: 'slt' }, text);
const phrase = (text: string) => chain(say(text), silence(0.6));

/** A page whose microphone plays a recording over and over. */
async function listeningPage(recording: Int16Array): Promise<Page> {
  const file = writeWav(join(data.path, 'microphone.wav'), mixed(recording, noise('pink', 7), 28));
  browser = await openBrowser([
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-audio-capture=${file}`,
  ]);
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  errors = watchErrors(page);
  await page.goto(`${server.url}/bench/bench-1`);
  await untilTask(page, 'idle');
  return page;
}

/** A recording does not wait for the end of a cue, as a packer does, and while the bench speaks it hears nothing. */
async function quiet(page: Page): Promise<void> {
  await page.locator('[data-switch="speech"]').click();
  await page.locator('[data-speech="on-false"]').click();
  await page.locator('[data-speech="done"]').click();
}

const turn = (page: Page) => page.locator('[data-switch="microphone"]').click();

it('a whole order is packed by voice, with talk between the commands that moves nothing', async () => {
  const { next, confirm } = PHRASES.en;
  const recording = chain(
    silence(0.5),
    phrase(next),
    phrase(next),
    phrase(next),
    phrase('what did you have for lunch today'),
    phrase(confirm),
    phrase(next),
    phrase(next),
    phrase(confirm),
  );
  let voice: VoiceView | null = null;
  const outcomes: string[] = [];
  hands.socket.on('voice', (view) => {
    if (view.heard !== null && view.heard.count !== voice?.heard?.count) outcomes.push(view.heard.outcome);
    voice = view;
  });
  const page = await listeningPage(recording);
  expect(await page.locator('bf-voice-line').count()).toBe(0);
  await quiet(page);
  await turn(page);
  await page.locator('[data-voice="listening"]').waitFor();
  await hands.until(({ view }) => view?.task.at === 'weigh', 'the weighing', 100_000);
  await hands.emptyPan();
  await hands.simulate({ do: 'put-expected' });
  await hands.until(({ view }) => view?.task.at === 'done', 'the order packed', 60_000);
  await turn(page);
  expect(outcomes).toContain('no-phrase');
  const { counts } = voice as unknown as VoiceView;
  // An order is taken, and its slip is printed, beside what was said and what was weighed; nothing else moved the run.
  const moved = hands.view?.seq ?? 0;
  expect(counts.taken).toBeGreaterThan(8);
  expect(moved - counts.taken).toBeLessThanOrEqual(4);
  expect(counts.junk).toBe(0);
  expect(errors).toEqual([]);
});

it('says that the browser forbids the microphone and how to mend it, and goes on without', async () => {
  browser = await openBrowser();
  const context = await browser.newContext({ permissions: [] });
  const page = await context.newPage();
  await page.goto(`${server.url}/bench/bench-2`);
  await untilTask(page, 'idle');
  await turn(page);
  await page.locator('[data-trouble]').waitFor();
  expect(await page.locator('[data-trouble]').textContent()).toMatch(/allow it|plug one in/);
  await page.locator('[data-command="next"]').first().click();
  await untilTask(page, 'gather');
});

it('a person’s voice is tried and recorded on the office’s page, and what works is shown', async () => {
  const recording = mixed(chain(silence(0.7), say(PHRASES.en.next), silence(0.7)), noise('pink', 3), 28);
  const file = writeWav(join(data.path, 'person.wav'), recording);
  browser = await openBrowser([
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-audio-capture=${file}`,
  ]);
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  errors = watchErrors(page);
  await page.goto(`${server.url}/office#voices`);
  await page.locator('[data-act="begin"]').click();
  await page.locator('[data-act="record"]').click();
  await page.locator('[data-take="right"]').waitFor({ timeout: 20_000 });
  await page.locator('[data-act="end"]').click();
  const row = page.locator('[data-enrolled] [data-command="next"]');
  await row.waitFor();
  expect(await row.textContent()).toMatch(/next item.*1 of 1.*works/s);
  expect(await violations(page)).toEqual([]);
  expect(errors).toEqual([]);
});
