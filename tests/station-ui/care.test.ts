import { afterEach, expect, it } from 'vitest';
import '#station-ui/bench/tasks/seal.ts';
import '#station-ui/bench/tasks/idle.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import { TASKS, benchView } from './fixtures.ts';
import { all, one, text } from './look.ts';

afterEach(() => {
  document.body.replaceChildren();
});

it.each([
  [true, 'lifting'],
  [false, 'lifting-care'],
] as const)('a heavy parcel shows what one person should lift, and the caution beside it', async (tooMuch, caution) => {
  const lift = { mass: massFromDecimal('28', 'lb'), limit: massFromDecimal('24', 'lb'), tooMuch };
  const element = document.createElement('bf-task-seal');
  const task = { ...TASKS.seal, cautions: [caution], lift };
  Object.assign(element, { view: benchView('seal'), task, words: wordsOf('en'), language: 'en' });
  document.body.append(element);
  await element.updateComplete;
  expect(text(one(element, '[data-lift]'))).toContain('about 28 lb; here one person should lift 24 lb at most');
  expect(all(element, '[data-caution]').map((each) => each.getAttribute('data-caution'))).toEqual([caution]);
});

it('between two orders a pause that is due and the streak are told; without them nothing is', async () => {
  const element = document.createElement('bf-task-idle');
  const view = benchView('idle', 'es', { pause: { worked: 55, rest: 5 }, streak: 7 });
  Object.assign(element, { view, task: TASKS.idle, words: wordsOf('es'), language: 'es' });
  document.body.append(element);
  await element.updateComplete;
  expect(text(one(element, '[data-pause]'))).toContain('55 minutos seguidos: descansa 5');
  expect(text(one(element, '[data-streak]'))).toContain('7 seguidos sin error');
  Object.assign(element, { view: benchView('idle', 'es', { pause: null, streak: 1 }) });
  await element.updateComplete;
  expect(one(element, '[data-pause]')).toBeNull();
  expect(one(element, '[data-streak]')).toBeNull();
});
