import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { Language } from '#shared/words/language.ts';
import { otherLanguage } from '../i18n/language.ts';
import type { Words } from '../i18n/words.ts';
import { currentTheme } from '../theme/theme.ts';

type Switch = 'microphone' | 'camera' | 'speech';

/** What a touch on each switch does. */
export type Turns = Readonly<Record<Switch | 'language' | 'theme', () => void>>;

/** What is switched at the top of the bench: microphone, camera, speech, language and theme. */
export function switches(
  words: Words,
  language: Language,
  settingSpeech: boolean,
  on: Readonly<Record<Switch, boolean>>,
  turn: Turns,
): TemplateResult {
  return html`<div class="switches">
    <button
      type="button"
      data-switch="microphone"
      aria-pressed=${on.microphone ? 'true' : 'false'}
      @click=${turn.microphone}
    >
      ${words.voice.microphone}: <b>${words.voice.turned[on.microphone ? 'on' : 'off']}</b>
    </button>
    <button type="button" data-switch="camera" aria-pressed=${on.camera ? 'true' : 'false'} @click=${turn.camera}>
      ${words.camera.name}: <b>${words.voice.turned[on.camera ? 'on' : 'off']}</b>
    </button>
    <button type="button" data-switch="speech" aria-expanded=${settingSpeech ? 'true' : 'false'} @click=${turn.speech}>
      ${words.speaking.name}: <b>${words.speaking.turned[on.speech ? 'on' : 'off']}</b>
    </button>
    <button type="button" data-switch="language" lang=${otherLanguage(language)} @click=${turn.language}>
      ${words.bench.switchLanguage}
    </button>
    <button type="button" data-switch="theme" @click=${turn.theme}>
      ${words.bench.theme[currentTheme() === 'dark' ? 'light' : 'dark']}
    </button>
  </div>`;
}
