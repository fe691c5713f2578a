import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Command } from '#shared/run/commands.ts';
import type { AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, untilSeq, untilTask } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const data = temporaryFolder('accessibility');
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

/** What axe finds against WCAG 2.2 A and AA on the page as it stands. */
async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE);
  const results = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run: (options: unknown) => Promise<AxeResults> } }).axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    }),
  );
  return results.violations.map(
    (each) => `${each.id}: ${each.nodes.map((node) => node.target.join(' ')).join('; ')} (${each.help})`,
  );
}

it('no screen of a run breaks a rule of WCAG 2.2 A or AA, light or dark', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`${server.url}/bench/bench-1`);
  await untilTask(page, 'idle');
  const found: Record<string, readonly string[]> = {};
  const look = async (name: string) => {
    for (const theme of ['light', 'dark']) {
      const wrong = await violations(page);
      if (wrong.length > 0) found[`${name}, ${theme}`] = wrong;
      await page.locator('[data-switch="theme"]').click();
    }
  };
  await look('idle');
  await page.locator('[data-switch="speech"]').click();
  await page.locator('bf-speech-panel').waitFor();
  await look('speech panel');
  await page.locator('[data-speech="done"]').click();
  /** Goes on when the command itself has been taken and the slip that it may print is out. */
  const say = async (command: Command) => {
    const ack = await hands.command(command);
    if (!ack.ok) throw new Error(ack.message);
    await hands.until(({ view }) => (view?.seq ?? 0) >= ack.seq && view?.slip !== 'queued', `what follows ${command}`);
  };
  await say('next');
  await hands.at('gather');
  const seen = new Set<string>();
  for (let guard = 0; guard < 60; guard++) {
    const view = await hands.until((client) => client.view?.slip !== 'queued' && client.view, 'a view');
    await untilSeq(page, view.seq);
    const name = view.confirming === null ? view.task.at : `confirming ${view.task.at}`;
    if (!seen.has(name)) await look(name);
    seen.add(name);
    if (view.task.at === 'done') break;
    if (view.task.at === 'weigh') {
      await hands.emptyPan();
      // First far too light, then as it should be.
      await hands.simulate(seen.has('decide') ? { do: 'put-expected' } : { do: 'put-mass', mass: '1 oz' });
      await hands.until((client) => client.view?.task.at !== 'weigh', 'what the weight leads to');
    } else if (view.confirming !== null) await say('confirm');
    else await say(view.task.at === 'decide' ? 'weigh-again' : 'next');
  }
  expect([...seen]).toEqual(
    expect.arrayContaining(['gather', 'look-over', 'fold', 'fill', 'weigh', 'decide', 'seal', 'label', 'done']),
  );
  expect(found).toEqual({});
  await page.close();
});

it('the office breaks none either', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(`${server.url}/office`);
  await page.getByText('4101').first().waitFor();
  expect(await violations(page)).toEqual([]);
  await page.close();
});
