import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { orderCode } from '#shared/codes/our-codes.ts';
import type { FitsView } from '#shared/wire/fits.ts';
import type { LearnedView } from '#shared/wire/learned.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { openBrowser, watchErrors } from '#tests/support/browser.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { keepPicture } from '#tests/support/keep-picture.ts';
import { violations } from '#tests/support/violations.ts';

let browser: Browser;
let server: ServerProcess;
let hands: BenchClient;
const data = temporaryFolder('fits-browser');

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

async function open(part: 'what-fits' | 'learned', language: 'en' | 'es', width = 1280): Promise<Page> {
  const page = await browser.newPage({ viewport: { width, height: 800 } });
  await page.addInitScript(`localStorage.setItem('benchfold.language', '${language}')`);
  await page.goto(`${server.url}/office`);
  await page.locator(`[data-part="${part}"]`).click();
  return page;
}

/** What the accessibility rules hold against the page in the theme that it has and in the other one. */
async function inBothThemes(page: Page, name: string): Promise<readonly string[]> {
  const found: string[] = [];
  for (const theme of ['first', 'second']) {
    await keepPicture(page, `${name}-${theme}`);
    found.push(...(await violations(page)).map((each) => `${theme}: ${each}`));
    await page.locator('[data-switch="theme"]').click();
  }
  return found;
}

async function fitsOf(query: string): Promise<FitsView> {
  return (await (await fetch(`${server.url}/api/what-fits?${query}`)).json()) as FitsView;
}

interface Drawn {
  readonly id: string;
  readonly label: string;
  /** by class, of the view from above and of the one from the side; drawn pixels */
  readonly boxes: readonly { readonly name: string; readonly width: number; readonly height: number }[];
}

/** Read in the page, which this program does not know the types of. */
const READ = `[document.querySelector('bf-office-door').shadowRoot.querySelector('bf-office')].flatMap((office) =>
  [...office.shadowRoot.querySelector('bf-what-fits').shadowRoot.querySelectorAll('[data-container]')].map((card) => ({
    id: card.getAttribute('data-container'),
    label: card.querySelector('svg[aria-label]')?.getAttribute('aria-label') ?? '',
    boxes: [...card.querySelectorAll('rect')].map((each) => {
      const { width, height } = each.getBoundingClientRect();
      return { name: each.getAttribute('class'), width, height };
    }),
  })))`;

const drawnOn = (page: Page) => page.evaluate<readonly Drawn[]>(READ);

describe('the page "What fits"', () => {
  it('shows pieces at hand in every container to one scale, with room, cost and why not', async () => {
    const page = await open('what-fits', 'en');
    const errors = watchErrors(page);
    await page.locator('input[name=sku]').fill('OT-0435, OT-0488');
    await page.locator('input[name=to]').fill('60601');
    await page.locator('[data-do=show]').click();
    await page.locator('[data-container]').first().waitFor();
    const view = await fitsOf('sku=OT-0435&sku=OT-0488&to=60601');
    const drawn = await drawnOn(page);
    expect(drawn.map(({ id }) => id)).toEqual(view.containers.map(({ id }) => id));

    const scales = view.containers.map(({ inside, stack, fit }, index) => {
      const [above, , lying, room] = drawn[index]?.boxes ?? [];
      if (above === undefined || lying === undefined || room === undefined) throw new Error('nothing is drawn');
      expect([above.name, lying.name, room.name]).toEqual(['inside', 'stack', 'room']);
      const scale = above.width / inside.length;
      expect(above.height / scale).toBeCloseTo(inside.width, 0);
      expect(lying.width / scale).toBeCloseTo(stack.along, 0);
      expect(lying.height / scale).toBeCloseTo(stack.across, 0);
      // The slack is what of the room the stack leaves; where it is negative the stack sticks out.
      expect((room.width - lying.width) / scale).toBeCloseTo(Math.max(fit.slack.length, -stack.along), 0);
      expect((room.height - lying.height) / scale).toBeCloseTo(Math.max(fit.slack.width, -stack.across), 0);
      return scale;
    });
    expect(Math.max(...scales) / Math.min(...scales)).toBeLessThan(1.01);

    const chosen = page.locator('[data-container].chosen');
    expect(await chosen.count()).toBe(1);
    expect(await chosen.getAttribute('data-container')).toBe(view.containers[0]?.id);
    expect(await chosen.innerText()).toMatch(/Cost\s+\$\d+\.\d\d/i);
    const others = page.locator('[data-container]:not(.chosen)');
    for (const text of await others.locator('.why').allInnerTexts()) {
      expect(text).toMatch(
        /^(Costs \$\d+\.\d\d more|Costs the same|Too tight: .* short in|Closes only|The pieces fit, but)/,
      );
    }
    expect(await others.locator('.why').count()).toBe(view.containers.length - 1);
    const tight = view.containers.find(({ fit }) => fit.verdict === 'no');
    expect(drawn.find(({ id }) => id === tight?.id)?.label).toMatch(/ short/);
    await page.locator('[data-container] details summary').first().click();
    expect(await page.locator('[data-container] details li').first().innerText()).not.toBe('');
    expect(await inBothThemes(page, 'what-fits-en')).toEqual([]);
    expect(errors).toEqual([]);
    await page.close();
  });

  it('shows a kind in a size that nobody has yet, in Spanish and on a narrow screen, and says what it assumed', async () => {
    const page = await open('what-fits', 'es', 800);
    await page.locator('select[name=kind]').selectOption('hoodie');
    await page.locator('select[name=size]').selectOption('L');
    await page.locator('[data-do=show]').click();
    await page.locator('[data-container]').first().waitFor();
    const view = await fitsOf('kind=hoodie&size=L');
    expect(await page.locator('[data-container]').count()).toBe(view.containers.length);
    expect(await page.locator('[data-piece=hoodie]').innerText()).toMatch(/tejido/i);
    for (const text of await page.locator('[data-container]:not(.chosen) .why').allInnerTexts()) {
      expect(text).toMatch(/^(Cuesta |Demasiado justo: |Solo cierra|Las prendas caben)/);
    }
    expect(await page.evaluate('document.documentElement.scrollWidth <= document.documentElement.clientWidth')).toBe(
      true,
    );
    expect(await inBothThemes(page, 'what-fits-es')).toEqual([]);

    await page.locator('input[name=sku]').fill('OT-NONE');
    await page.locator('[data-do=show]').click();
    await page.locator('.failure').waitFor();
    expect(await page.locator('.failure').innerText()).toContain('OT-NONE');
    await page.close();
  });

  it('names both pouches of a double bag for what is worth it, and why one is not enough', async () => {
    const page = await open('what-fits', 'en');
    await page.locator('input[name=sku]').fill('OT-0452');
    await page.locator('[data-do=show]').click();
    await page.locator('[data-container*="+"]').first().waitFor();
    expect(await page.locator('[data-container*="+"] h3').first().innerText()).toMatch(/^Film pouch .* in /);
    expect(await page.locator('li', { hasText: 'one pouch is not enough' }).count()).toBeGreaterThan(0);
    await page.close();
  });
});

describe('the page "What it learned"', () => {
  /** Packs an order of one piece, weighing so much more than expected. */
  async function pack(order: string, mass: string | null): Promise<void> {
    await hands.simulate({ do: 'scan', text: orderCode(order) });
    await hands.at('gather');
    for (let guard = 0; guard < 60 && hands.view?.task.at !== 'done'; guard++) {
      const { view } = hands;
      const seq = view?.seq ?? 0;
      if (view?.confirming !== null) await hands.command('confirm');
      else if (view.task.at === 'weigh') {
        await hands.emptyPan();
        await hands.simulate(mass === null ? { do: 'put-expected' } : { do: 'put-mass', mass });
        await hands.until((client) => client.view?.task.at !== 'weigh', 'what the weight leads to');
      } else if (view.task.at === 'decide' && view.commands.includes('pay-next-bracket')) {
        await hands.command('pay-next-bracket');
      } else await hands.command('next');
      await hands.until((client) => (client.view?.seq ?? 0) > seq, 'the next step');
    }
    await hands.at('done');
  }

  it('shows what a parcel taught, a weighing that is far off, and forgets when asked', async () => {
    await pack('4130', null);
    await pack('4144', '60 oz');
    const learned = (await (await fetch(`${server.url}/api/learned`)).json()) as LearnedView;
    const rowOf = (kind: string) => learned.rows.find((row) => row.kind === kind);
    expect(rowOf('scarf')?.mass.parcels).toBe(1);
    expect(rowOf('dress')).toMatchObject({ mass: { parcels: 0 }, outliers: [{ about: 'mass', order: '4144' }] });

    const page = await open('learned', 'en');
    const errors = watchErrors(page);
    await page.locator('tr[data-kind=scarf]').waitFor();
    const cells = await page.locator('tr[data-kind=scarf] td').allInnerTexts();
    expect(cells[0]).toMatch(/^\d+\.\d oz ± \d+\.\d oz$/);
    expect(cells[1]).toMatch(/^\d+\.\d oz ± \d+\.\d oz$/);
    expect(cells.slice(2, 3)).toEqual(['1']);
    const outlier = await page.locator('tr[data-kind=dress] li').innerText();
    expect(outlier).toMatch(/Order 4144.*standard deviations away; not learned/s);
    expect(await inBothThemes(page, 'learned-en')).toEqual([]);
    await page.locator('[data-switch="language"]').click();
    await page.locator('h2', { hasText: 'Lo que aprendió' }).waitFor();
    expect(await page.locator('tr[data-kind=dress] li').innerText()).toMatch(/desviaciones típicas; no se aprendió/);
    expect(await inBothThemes(page, 'learned-es')).toEqual([]);

    await page.locator('[data-forget=scarf]').click();
    await page.locator('[data-forget-sure=scarf]').click();
    await page.locator('[role=status]', { hasText: 'olvidado' }).waitFor();
    expect(await page.locator('tr[data-kind=scarf]').count()).toBe(0);
    const after = (await (await fetch(`${server.url}/api/learned`)).json()) as LearnedView;
    expect(after.rows.find((row) => row.kind === 'scarf')?.mass.parcels).toBe(0);
    expect(after.rows.find((row) => row.kind === 'dress')?.outliers).toHaveLength(1);
    expect(errors).toEqual([]);
    await page.close();
  });
});
