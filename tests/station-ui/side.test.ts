import { afterEach, describe, expect, it } from 'vitest';
import type { NextOrder, OrderTag } from '#shared/wire/views.ts';
import '#station-ui/bench/side.ts';
import '#station-ui/bench/tasks/idle.ts';
import { stepsFrom } from '#station-ui/components/chart.ts';
import { readable } from '#station-ui/components/last-scan.ts';
import { dayWords } from '#station-ui/i18n/day.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { ORDER, benchView } from './fixtures.ts';
import type { TaskName } from './fixtures.ts';
import { one, text } from './look.ts';

afterEach(() => {
  document.body.replaceChildren();
});

async function side(task: TaskName, change: Partial<OrderTag> = {}): Promise<string | null> {
  const element = document.createElement('bf-side');
  const view = benchView(task);
  Object.assign(element, { view: { ...view, order: { ...ORDER, ...change } }, words: wordsOf('en'), language: 'en' });
  document.body.append(element);
  await element.updateComplete;
  const saves = one(element, '.saves');
  return saves === null ? null : text(saves);
}

describe('what the plan saves', () => {
  const pieces = [...ORDER.pieces, { ...ORDER.pieces[1]!, sku: 'OT-0419' }];

  it('is told beside the order', async () => {
    expect(await side('fold')).toContain('$1.85 less than');
    expect(await side('weigh', { pieces })).toContain('$1.85 less than');
  });

  it.each([{ pieces }, { arriveBy: '2026-11-28' }, { note: 'A gift' }])(
    'is left out where the side would be too full for it: %j',
    async (change) => {
      expect(await side('fold', change)).toBeNull();
    },
  );
});

it('of a code, what kind of code it is and what has no picture is not shown', () => {
  // ISO/IEC 15424: "]C1" is GS1-128; its separator is a control character.
  expect(readable(']C142055802\u001d9200')).toBe('42055802 9200');
  expect(readable('OT-0418')).toBe('OT-0418');
});

it('marks of an axis stand no closer than what can be told apart', () => {
  expect(stepsFrom(1).slice(0, 5)).toEqual([1, 2, 5, 10, 20]);
  expect(stepsFrom(0.01).slice(0, 4)).toEqual([0.01, 0.02, 0.05, 0.1]);
});

it('one order is done, and two are', () => {
  expect([1, 2].map(dayWords.es.doneToday)).toEqual(['1 hecho hoy', '2 hechos hoy']);
});

it.each([
  [30, 'it is collected first'],
  [-4, 'it should have left already'],
])('with %d minutes to its collection the next order is next because %s', async (minutes, why) => {
  const element = document.createElement('bf-task-idle');
  const view = benchView('idle');
  const next: NextOrder = {
    order: '1048',
    by: 'collection',
    sameContainer: false,
    sameShelf: false,
    collection: '2026-11-25T16:30:00-06:00',
    carriers: [],
    minutes,
    container: null,
    shelf: null,
    basket: null,
  };
  Object.assign(element, { task: view.task, view: { ...view, next }, words: wordsOf('en'), language: 'en' });
  document.body.append(element);
  await element.updateComplete;
  expect(text(one(element, '[data-next]'))).toContain(why);
});
