import { expect, it } from 'vitest';
import type { Notice } from '#shared/run/types.ts';
import type { BenchView } from '#shared/wire/views.ts';
import type { Earcon } from '#station-ui/audio/earcons.ts';
import '#station-ui/bench/tasks/all.ts';
import type { LinkHandlers } from '#station-ui/bench/link.ts';
import { noticeShown } from '#station-ui/bench/notice-shown.ts';
import { Station } from '#station-ui/bench/station.ts';
import { taskElement, taskInWords } from '#station-ui/bench/tasks/all.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { render } from 'lit';
import { benchView } from './fixtures.ts';
import { one, text } from './look.ts';

const stop: Notice = { tone: 'stop', code: 'label-wrong-postcode', values: { found: '55811', due: '55802' } };
const stopped = (change: Partial<BenchView> = {}): BenchView =>
  benchView('label', 'en', {
    task: { at: 'label', postcode: '55802', stop: { why: 'postcode', found: '55811', due: '55802' } },
    commands: ['repeat', 'back', 'set-aside', 'help'],
    notice: stop,
    ...change,
  });

it.each(['en', 'es'] as const)(
  '%s: a wrong label fills the screen with both postcodes, in words too',
  async (language) => {
    const words = wordsOf(language);
    const view = stopped({ language });
    const place = document.createElement('div');
    document.body.append(place);
    render(taskElement({ view, live: null, words, language }), place);
    await place.querySelector('bf-label-stop')?.updateComplete;
    expect(one(place, '[data-label-stop=postcode]')?.getAttribute('role')).toBe('alert');
    expect(text(one(place, 'h1'))).toBe(words.labelStop.wrong);
    expect(text(one(place, '[data-found]'))).toBe('55811');
    expect(text(one(place, '[data-due]'))).toBe('55802');
    expect(text(one(place, '.else'))).toContain(words.commands.back);
    for (const each of ['55811', '55802', words.labelStop.wrong]) {
      expect(taskInWords({ view, words, language })).toContain(each);
    }
    // The bar above would only say the same, but what else was refused is told there.
    expect(noticeShown(view, words, language)).toBeNull();
    expect(noticeShown({ ...view, notice: { ...stop, code: 'code-not-known' } }, words, language)).not.toBeNull();
    place.remove();
  },
);

it('a number that is on another parcel is told as that', async () => {
  const words = wordsOf('en');
  const view = stopped({
    task: { at: 'label', postcode: '55802', stop: { why: 'used', number: '9200111122223333444455' } },
  });
  const place = document.createElement('div');
  document.body.append(place);
  render(taskElement({ view, live: null, words, language: 'en' }), place);
  await place.querySelector('bf-label-stop')?.updateComplete;
  expect(text(one(place, 'h1'))).toBe(words.labelStop.used);
  expect(text(one(place, '[data-found]'))).toBe('9200111122223333444455');
  place.remove();
});

it('the alarm sounds at the stop and at everything that does not end it, and not for what does', () => {
  const heard: Earcon[] = [];
  const links: LinkHandlers[] = [];
  new Station({
    bench: 'bench-1',
    keeping: localStorage,
    sound: (earcon) => heard.push(earcon),
    changed: () => undefined,
    open: (_seq, handlers) => {
      links.push(handlers);
      return {
        input: () => Promise.resolve(null),
        code: () => Promise.resolve(null),
        simulate: () => Promise.resolve(null),
        ear: () => undefined,
        speech: () => Promise.resolve(null),
        sound: () => Promise.resolve(null),
        again: () => undefined,
        close: () => undefined,
      };
    },
  });
  const see = (view: BenchView): void => {
    links[0]?.view(view);
  };
  see(benchView('label', 'en', { seq: 40 }));
  see(stopped({ seq: 41 }));
  // A refused command changes no number of the run: the stop is told all the same.
  see(stopped({ seq: 41 }));
  see(stopped({ seq: 42, repeats: 1 }));
  expect(heard).toEqual(['wrong-label', 'wrong-label', 'wrong-label']);
  see(benchView('done', 'en', { seq: 43, notice: { tone: 'well', code: 'label-right', values: {} } }));
  expect(heard.at(-1)).toBe('accepted');
});
