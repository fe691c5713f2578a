import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { money } from '#shared/units/money.ts';
import type { BenchView, ContainerTag, PlanDoubt } from '#shared/wire/views.ts';
import '#station-ui/bench/bench.ts';
import type { Bench } from '#station-ui/bench/bench.ts';
import { en } from '#station-ui/i18n/en.ts';
import { es } from '#station-ui/i18n/es.ts';
import { CONTAINER, ORDER, benchView, type TaskName } from './fixtures.ts';
import { all, one, text } from './look.ts';

let bench: Bench;
let show: (view: BenchView) => Promise<void>;

beforeEach(async () => {
  bench = document.createElement('bf-bench');
  bench.bench = 'bench-2';
  bench.open = (_, handlers) => {
    show = async (view) => {
      handlers.up();
      handlers.view(view);
      for (let turn = 0; turn < 6; turn++) {
        await bench.updateComplete;
        await new Promise((resolve) => setTimeout(resolve, 0));
      }
    };
    return {
      input: () => Promise.resolve(null),
      simulate: () => Promise.resolve(null),
      code: () => Promise.resolve(null),
      ear: () => undefined,
      speech: () => Promise.resolve(null),
      sound: () => Promise.resolve(null),
      again: () => undefined,
      close: () => undefined,
    };
  };
  document.body.append(bench);
  await bench.updateComplete;
});

afterEach(() => bench.remove());

const DOUBTS: readonly PlanDoubt[] = [
  { about: 'promise', service: null, arriveBy: '2026-11-27' },
  { about: 'assumed', what: ['size', 'cloth'], weighed: false },
  { about: 'not-proven', dearer: money(212, 'USD'), least: money(1840, 'USD') },
];

const holding = (name: TaskName, change: Partial<ContainerTag>, language: 'en' | 'es' = 'en') =>
  benchView(name, language, {
    container: { ...CONTAINER, ...change },
    order: { ...ORDER, arriveBy: '2026-11-27' },
  });

const said = () => all(bench, '[data-doubt]').map((each) => text(each));

describe('what is not certain about a plan', () => {
  it('is told at the beginning, with its lower bound', async () => {
    await show(holding('gather', { doubts: DOUBTS }));
    expect(said()).toEqual([
      'may not arrive by Fri, Nov 27, as promised',
      'size and cloth assumed: weight may differ more',
      'not proven cheapest: at most $2.12 dearer (least $18.40)',
    ]);
    await show(holding('gather', { doubts: DOUBTS }, 'es'));
    expect(said()).toEqual([
      'puede no llegar el vie, 27 de nov, como se prometió',
      'talla y tejido supuestos: el peso puede variar más',
      'más barato no demostrado: como mucho $2.12 más (mínimo $18.40)',
    ]);
  });

  it('is told again at the scale as far as it is about the weight, and not in between', async () => {
    await show(holding('fold', { doubts: DOUBTS }));
    expect(said()).toEqual([]);
    await show(holding('weigh', { doubts: DOUBTS }));
    expect(said()).toEqual(['size and cloth assumed: weight may differ more']);
  });

  it('a promise that is kept is told without a mark', async () => {
    await show(holding('gather', {}));
    expect(said()).toEqual([]);
    expect(text(one(bench, '.arrive'))).toBe('promised for Fri, Nov 27');
  });
});

describe('a double bag and piles', () => {
  const doubled = {
    inner: { en: 'Pouch 9 × 12', es: 'Sobre 9 × 12' },
    outer: { en: 'Pouch 12 × 15', es: 'Sobre 12 × 15' },
  };

  it.each([
    ['en', 'Fill both pouches', 'inner: Pouch 9 × 12 outer: Pouch 12 × 15', 'two piles side by side'],
    ['es', 'Llena los dos sobres', 'dentro: Sobre 9 × 12 fuera: Sobre 12 × 15', 'dos montones, uno junto a otro'],
  ] as const)('are named where they are filled, in %s', async (language, heading, name, piles) => {
    await show(holding('fill', { doubled, piles: 2 }, language));
    expect(text(one(bench, 'h1'))).toBe(heading);
    expect(text(one(bench, '.name'))).toBe(name);
    for (const each of all(bench, '.piles')) expect(text(each)).toBe(piles);
    expect(all(bench, '.piles')).toHaveLength(2);
  });

  it('is told in one line when it is the new plan, since both names stand below', async () => {
    const view = holding('fill', { doubled }, 'en');
    const id = view.container?.id ?? '';
    await show({ ...view, notice: { tone: 'attention', code: 'next-plan', values: { container: id } } });
    expect(text(one(bench, '[data-notice="next-plan"]'))).toBe('New plan: Double bag');
  });
});

describe('an order that cannot be planned', () => {
  it.each(['no-pieces', 'too-many-pieces', 'unknown-piece', 'unknown-kind', 'nothing-fits', 'no-rates'])(
    'says why and what to do, in both languages: %s',
    (why) => {
      const words = [en, es].map(({ notices }) => notices['cannot-be-planned']({ order: '1047', why }));
      for (const each of words) expect(each).toContain('1047');
      expect(new Set(words).size).toBe(2);
      const other = en.notices['cannot-be-planned']({ order: '1047', why: 'nothing-fits' });
      expect(words[0] === other).toBe(why === 'nothing-fits');
    },
  );
});
