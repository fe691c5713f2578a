import { render } from 'lit';
import { afterEach, expect, it } from 'vitest';
import { speechLine } from '#station-ui/bench/speech-panel.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { benchView } from './fixtures.ts';
import { one, text } from './look.ts';

afterEach(() => {
  document.body.replaceChildren();
});

it.each(['en', 'es'] as const)('%s: says at the bench and in its settings that there is no voice', async (language) => {
  const words = wordsOf(language);
  const speech = { ...benchView('seal', language).speech, on: true, engine: 'not-installed' } as const;
  const panel = document.createElement('bf-speech-panel');
  Object.assign(panel, { speech, words });
  document.body.append(panel);
  await panel.updateComplete;
  expect(text(one(panel, '[data-speech-trouble]'))).toContain('apt-get install espeak-ng');
  const line = document.createElement('div');
  render(speechLine(words, speech, null, false), line);
  expect(line.textContent).toContain('apt-get install espeak-ng');

  // What is switched off is missed by nobody, and what works needs no words.
  Object.assign(panel, { speech: { ...speech, on: false } });
  await panel.updateComplete;
  expect(one(panel, '[data-speech-trouble]')).toBeNull();
  expect(speechLine(words, { ...speech, engine: 'working' }, null, false)).toBeNull();
});
