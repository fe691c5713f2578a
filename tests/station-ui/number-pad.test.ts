import { render } from 'lit';
import { expect, it } from 'vitest';
import { benchView } from './fixtures.ts';
import { one, text } from './look.ts';
import { keysOf, meaningOf } from '#station-ui/bench/keys.ts';
import { noticeShown } from '#station-ui/bench/notice-shown.ts';
import { taskElement, taskInWords } from '#station-ui/bench/tasks/all.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import type { BenchView } from '#shared/wire/views.ts';

const entering = (digits: string, change: Partial<BenchView> = {}): BenchView =>
  benchView('label', 'en', {
    task: { at: 'label', postcode: '55802', entering: digits },
    commands: ['confirm', 'back', 'start-over', 'cancel', 'repeat', 'help'],
    notice: { tone: 'well', code: 'number-so-far', values: { number: digits } },
    ...change,
  });

it.each(['en', 'es'] as const)('%s: the digits so far are shown large, counted, and read out', async (language) => {
  const words = wordsOf(language);
  const place = document.createElement('div');
  document.body.append(place);
  const touched: string[] = [];
  place.addEventListener('bf-digit', (event) => touched.push((event as CustomEvent<string>).detail));
  for (const [digits, shown] of [
    ['', words.numberPad.none],
    ['55802', '55802'],
    ['9212391234567812345670', '9212 3912 3456 7812 3456 70'],
  ] as const) {
    const view = entering(digits, { language });
    render(taskElement({ view, live: null, words, language }), place);
    await place.querySelector('bf-number-pad')?.updateComplete;
    expect(text(one(place, '[data-digits]')).replace(/\s/g, '')).toBe(shown.replace(/\s/g, ''));
    expect(text(one(place, '[data-count]'))).toBe(words.numberPad.count(digits.length));
    expect(taskInWords({ view, words, language })).toContain(
      digits === '' ? words.numberPad.none : digits.split('').join(' '),
    );
    // The middle of the screen says it.
    expect(noticeShown(view, words, language)).toBeNull();
  }
  for (const digit of '0123456789') one(place, `[data-digit="${digit}"]`)?.click();
  expect(touched.join('')).toBe('0123456789');
  place.remove();
});

it('digit keys are digits only while a number is entered; a foot switch stays one', () => {
  const plain = keysOf(benchView('label'));
  expect(meaningOf('Digit5', plain)).toBeNull();
  expect(meaningOf('Backspace', plain)).toBeNull();
  const keys = keysOf(entering('55', { footSwitchKeys: ['Digit9'] }));
  expect(meaningOf('Digit5', keys)).toEqual({ means: 'digit', digit: '5' });
  expect(meaningOf('Numpad0', keys)).toEqual({ means: 'digit', digit: '0' });
  expect(meaningOf('Digit9', keys)).toEqual({ means: 'main' });
  expect(meaningOf('Backspace', keys)).toEqual({ means: 'command', command: 'back' });
  expect(meaningOf('Escape', keys)).toEqual({ means: 'command', command: 'cancel' });
  expect(meaningOf('Enter', keys)).toEqual({ means: 'main' });
  expect(meaningOf('KeyA', keys)).toBeNull();
});
