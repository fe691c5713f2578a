import { afterEach, expect, it } from 'vitest';
import '#station-ui/bench/tasks/decide.ts';
import '#station-ui/bench/tasks/done.ts';
import '#station-ui/bench/tasks/weigh.ts';
import '#station-ui/components/weigh-line.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import type { BenchView, LiveScale } from '#shared/wire/views.ts';
import { benchView, live, reading } from './fixtures.ts';
import { one, text } from './look.ts';

afterEach(() => document.body.replaceChildren());

type Shown = 'bf-task-weigh' | 'bf-task-decide' | 'bf-task-done' | 'bf-weigh-line';

async function show(name: Shown, view: BenchView, scale: LiveScale | null): Promise<HTMLElement> {
  const element = document.createElement(name);
  const { task, language } = view;
  Object.assign(element, { view, task, language, words: wordsOf(language), live: scale });
  document.body.append(element);
  await ('updateComplete' in element ? element.updateComplete : null);
  return element;
}

const left: LiveScale = { ...live('36.4'), needsEmptying: true, another: true };

it('the parcel before is shown as such, and is no weight of the one at hand', async () => {
  expect(text(await show('bf-task-weigh', benchView('weigh'), left))).toMatch(
    /^Take the last parcel off.*the parcel before this one/,
  );
  for (const name of ['fold', 'weigh'] as const) {
    const line = await show('bf-weigh-line', benchView(name), left);
    expect(text(line)).toContain('the parcel before this one');
    expect(text(line)).not.toContain('to come');
    expect(one(line, '.diamond')).toBeNull();
    expect(one(line, '.band')).toBeNull();
  }
});

it('a load of which nobody knows whether it is the parcel has no price while it is to be weighed', async () => {
  const unknown = { ...live('12.3'), needsEmptying: true };
  expect(one(await show('bf-weigh-line', benchView('weigh'), unknown), '.diamond')).toBeNull();
  // Once judged, the parcel that lies there is its own.
  expect(one(await show('bf-weigh-line', benchView('seal'), unknown), '.diamond')).not.toBeNull();
});

it('a scale that tells nothing is named with what to look at; before anything was heard the parcel is just asked for', async () => {
  const silent: LiveScale = { reading: null, needsEmptying: false, discarded: 0 };
  expect(text(await show('bf-task-weigh', benchView('weigh'), silent))).toMatch(
    /^The scale does not answer see that it is on and its cable is in/,
  );
  expect(text(await show('bf-task-weigh', benchView('weigh', 'es'), silent))).toMatch(/^La balanza no contesta/);
  expect(text(await show('bf-task-weigh', benchView('weigh'), null))).toMatch(/^Put the parcel on the scale/);
});

it('a zero that has crept away is not told as a missing piece', async () => {
  const view = benchView('mismatch', 'en', {
    task: { ...(benchView('mismatch').task as object), reading: reading('0.6') } as BenchView['task'],
  });
  const element = await show('bf-task-decide', view, live('0.6'));
  expect(text(element)).toMatch(/Is the parcel on it\?.*0\.6 oz: hardly more than an empty scale/);
  expect(text(element)).not.toContain('missing');
  expect(one(element, '[data-choice]')?.getAttribute('data-choice')).toBe('zero-scale');
});

it('what was put on the scale after a verdict is not taken for what was judged', async () => {
  const same = await show('bf-task-decide', benchView('mismatch'), { ...live('9.2'), needsEmptying: true });
  expect(one(same, '[data-other-load]')).toBeNull();
  const other = await show('bf-task-decide', benchView('mismatch'), { ...live('13.8'), needsEmptying: true });
  expect(text(one(other, '[data-other-load]'))).toMatch(/take it off, wait for zero/);
});

it.each([
  ['failed', 'en', /slip was not printed/],
  ['failed', 'es', /albarán no se imprimió/],
  ['unknown', 'en', /nobody knows whether its slip came out/],
  ['queued', 'en', /still printing/],
] as const)('an order packed with a slip that is %s says so (%s)', async (slip, language, expected) => {
  expect(text(await show('bf-task-done', benchView('done', language, { slip }), null))).toMatch(expected);
});

it('an order packed with its slip says nothing of it', async () => {
  expect(one(await show('bf-task-done', benchView('done'), null), '.no-slip')).toBeNull();
});
