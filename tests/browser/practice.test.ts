import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, untilTask, watchErrors } from '#tests/support/browser.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { violations } from '#tests/support/violations.ts';
import type { Running } from '#server/server.ts';
import { marksOf, signedSkills } from '#server/store/practice.ts';
import type { PracticeState } from '#shared/practice/types.ts';

const data = temporaryFolder('practice');
let browser: Browser;
let running: Running & { readonly url: string };
let page: Page;
/** The hands that hold a badge before the scanner. */
let hands: BenchClient;
let errors: readonly string[];

beforeAll(async () => {
  browser = await openBrowser();
  running = await serverOn(CONFIG, data.path);
  hands = new BenchClient(running.url, 'bench-1');
  page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  errors = watchErrors(page);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`${running.url}/bench/bench-1`);
  await untilTask(page, 'idle');
});

afterAll(async () => {
  hands.close();
  await browser.close();
  await running.stop();
  data.remove();
});

const practice = (): PracticeState => running.stations.get('bench-1')!.practice.state;

async function settled(what: string, there: (state: PracticeState) => boolean): Promise<void> {
  await hands.until(() => there(practice()), what);
  const { seq } = running.stations.get('bench-1')!;
  const end = Date.now() + 8000;
  while (Number(await page.locator('[data-seq]').first().getAttribute('data-seq')) < seq) {
    if (Date.now() > end) throw new Error(`the page never showed ${what}`);
    await page.waitForTimeout(20);
  }
}

async function touch(option: string): Promise<void> {
  await page.locator(`button[data-option="${option}"]`).click();
}
const press = (command: string) => page.locator(`[data-command="${command}"]`).first().click();

/** The answer that is right, as the round itself has it. */
function rightAnswer(): string {
  const { screen } = practice();
  if (screen.at !== 'round') throw new Error(`practice stands at ${screen.at}`);
  if (screen.round.exercise === 'spot') return screen.round.problem ?? 'nothing-wrong';
  return screen.round.options.find(({ right }) => right)!.container;
}

/** Everything that practice must not touch. */
async function untouched() {
  const { store } = running;
  return {
    orders: await store.selectFrom('shop_order').select(['id', 'state', 'run']).orderBy('id').execute(),
    pieces: await store.selectFrom('piece').selectAll().orderBy('sku').execute(),
    runs: await store.selectFrom('run').selectAll().execute(),
    parcels: await store.selectFrom('parcel').selectAll().execute(),
    jobs: await store.selectFrom('print_job').select('id').execute(),
    lessons: await store.selectFrom('lesson').selectAll().execute(),
    packs: await store.selectFrom('pack').selectAll().execute(),
  };
}

it('a whole practice session: menu, rounds, a guided run, signed off by a badge, printed; no order or count is touched', async () => {
  const before = await untouched();
  await hands.simulate({ do: 'scan', text: 'STAFF-LUCIA-03' });
  await hands.until(({ view }) => view?.packer?.name === 'Lucía', 'the packer');
  await press('practice');
  await untilTask(page, 'practice');
  await settled('the menu', ({ screen }) => screen.at === 'menu');
  expect(await page.locator('[data-practice]').innerText()).toContain('práctica');

  // By touch: rounds of containers. The first answer is wrong, and says why at once.
  await touch('skill:packing');
  await settled('the skill', ({ screen }) => screen.at === 'skill');
  await touch('choose');
  await settled('a round', ({ screen }) => screen.at === 'round');
  const right = rightAnswer();
  await page.locator(`button[data-option]:not([data-option="${right}"])`).first().click();
  await settled('the answer', ({ screen }) => screen.at === 'round' && screen.answer !== null);
  expect(await page.locator('[data-mark="wrong"] .note').innerText()).toMatch(/\S/);
  expect(await page.locator('[data-mark="right"]').count()).toBeGreaterThan(0);
  for (let round = 0; round < 3; round++) {
    await press('next');
    await settled('another round', ({ screen }) => screen.at === 'round' && screen.answer === null);
    await touch(rightAnswer());
    await settled('the answer', ({ screen }) => screen.at === 'round' && screen.answer !== null);
  }
  // By keys alone: marked and confirmed.
  await press('next');
  await settled(
    'a fifth round or the skill',
    ({ screen }) => screen.at === 'skill' || (screen.at === 'round' && screen.answer === null),
  );
  if (practice().screen.at === 'round') {
    await press('back');
    await settled('the skill', ({ screen }) => screen.at === 'skill');
  }

  // A guided run by the foot switch and "confirm" of its questions.
  await touch('guided');
  await untilTask(page, 'gather');
  for (let guard = 0; practice().screen.at === 'guided' && guard < 80; guard++) {
    const { seq } = running.stations.get('bench-1')!;
    const asks = (await page.locator('[data-confirming]').count()) > 0;
    if (asks) await page.waitForTimeout(600);
    await press(asks ? 'confirm' : 'next');
    await hands.until(() => running.stations.get('bench-1')!.seq > seq, 'the next step');
    await settled('the step', () => true);
  }
  await settled('the skill again', ({ screen }) => screen.at === 'skill');
  const marks = await marksOf(running.store, 'lucia');
  expect(marks.map(({ exercise, right }) => `${exercise} ${String(right)}`)).toEqual([
    'choose false',
    'choose true',
    'choose true',
    'choose true',
    'guided true',
  ]);

  // Lucía's own badge and a stranger's sign nothing off; a supervisor's does, once confirmed.
  await hands.simulate({ do: 'scan', text: 'STAFF-LUCIA-03' });
  await page.locator('[data-practice-notice="own-skill"]').waitFor();
  await hands.simulate({ do: 'scan', text: 'STAFF-TOBIAS-02' });
  await settled('the question', ({ screen }) => screen.at === 'skill' && screen.signing?.by === 'tobias');
  await press('confirm');
  await page.locator('[data-practice-notice="signed"]').waitFor();
  expect(await signedSkills(running.store, 'lucia')).toMatchObject([{ skill: 'packing', by: 'tobias' }]);
  expect(await untouched()).toEqual(before);

  // What is wrong here, by keys: mark and confirm.
  await press('back');
  await settled('the menu', ({ screen }) => screen.at === 'menu');
  await touch('skill:checking');
  await settled('the skill', ({ screen }) => screen.at === 'skill');
  await touch('spot');
  await settled('a round', ({ screen }) => screen.at === 'round');
  await page.keyboard.press('Space');
  await settled('a mark', ({ marked }) => marked === 0);
  await page.keyboard.press('ArrowRight');
  await settled('the answer', ({ screen }) => screen.at === 'round' && screen.answer === 'wrong-piece');
  await press('back');
  await settled('the skill', ({ screen }) => screen.at === 'skill');
  await press('back');
  await settled('the menu', ({ screen }) => screen.at === 'menu');
  await touch('progress');
  await settled('progress', ({ screen }) => screen.at === 'progress');
  await page.locator('bf-progress').waitFor();
  await press('back');
  await settled('the menu', ({ screen }) => screen.at === 'menu');

  // The record comes out of the printer: asked for, and the only thing that is printed.
  await touch('skill:packing');
  await settled('the skill', ({ screen }) => screen.at === 'skill');
  await touch('record');
  const slips = await hands.until(({ offers }) => (offers?.slips.length ?? 0) > 0 && offers?.slips, 'the record');
  const printed = slips[0]?.svg.replace(/<[^>]+>/g, ' ') ?? '';
  expect(printed).toContain('Lucía');
  expect(printed).toContain('Preparar un pedido');
  await press('back');
  await settled('the menu', ({ screen }) => screen.at === 'menu');
  await touch('leave');
  await untilTask(page, 'idle');
  expect(await untouched()).toEqual({ ...before, jobs: [expect.anything()] });
  expect(errors).toEqual([]);
});

it('one switch alone answers: it marks by pressing and chooses by waiting', async () => {
  await press('practice');
  await settled('the menu', ({ screen }) => screen.at === 'menu');
  await page.keyboard.press('Space');
  await settled('a mark', ({ marked }) => marked === 0);
  await settled('the first skill', ({ screen }) => screen.at === 'skill');
  await press('back');
  await press('back');
  await untilTask(page, 'idle');
});

it('the office page of the people shows who has which skill, and one person at a time', async () => {
  const office = page;
  await office.goto(`${running.url}/office#people`);
  await office.locator('[data-look="lucia"]').click();
  await office.locator('[data-shown="lucia"] [data-skill="packing"]').waitFor();
  expect(await office.locator('[data-person]').evaluateAll((rows) => rows.length)).toBe(3);
  expect(await office.locator('[data-shown="lucia"] [data-skill="packing"]').innerText()).toMatch(/Tobias/);
  expect(await violations(office)).toEqual([]);
  await page.goto(`${running.url}/bench/bench-1`);
  await untilTask(page, 'idle');
});

it('a bench that was practising does so after a restart, at the same moment', async () => {
  await press('practice');
  await settled('the menu', ({ screen }) => screen.at === 'menu');
  await touch('skill:weighing');
  await settled('the skill', ({ screen }) => screen.at === 'skill');
  await touch('spot');
  await settled('a round', ({ screen }) => screen.at === 'round');
  const before = practice();
  const { port } = running;
  await running.stop();
  running = await serverOn(CONFIG, data.path);
  expect(running.port).not.toBe(port);
  expect(practice()).toEqual(before);
});
