import { afterEach, expect, it } from 'vitest';
import '#station-ui/bench/voice-line.ts';
import { VOICE_STATES } from '#shared/wire/voice.ts';
import type { VoiceState, VoiceView } from '#shared/wire/voice.ts';
import { NOT_LISTENING } from '#station-ui/bench/listening.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { one, text } from './look.ts';

afterEach(() => {
  document.body.replaceChildren();
});

async function line(state: VoiceState): Promise<HTMLElement> {
  const voice: VoiceView = {
    state,
    mode: 'always',
    microphone: { at: 'screen' },
    talkKeys: [],
    heard: null,
    counts: { taken: 0, rejected: 0, dropped: 0, junk: 0 },
  };
  const element = document.createElement('bf-voice-line');
  Object.assign(element, { voice, listening: NOT_LISTENING, words: wordsOf('es') });
  document.body.append(element);
  await element.updateComplete;
  return element;
}

it('says how to be understood in every state, and offers a way of listening only where one would help', async () => {
  const helpless = ['off', 'no-microphone', 'not-installed', 'faulty', 'language-not-heard'];
  for (const state of VOICE_STATES) {
    const element = await line(state);
    expect(text(one(element, '.heard')), state).toBe(wordsOf('es').voice.states[state]);
    expect(one(element, '[data-mode]') === null, state).toBe(helpless.includes(state));
    expect(one(element, '.counts') === null, state).toBe(helpless.includes(state));
  }
});
