import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { BenchView } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import '../components/guidance.ts';
import type { Words } from '../i18n/words.ts';

/** How much is told, beside the buttons, where more or less can be asked for. */
export function guidanceShown(view: BenchView, words: Words, language: Language): TemplateResult | null {
  if (view.guidance === null || view.confirming !== null) return null;
  if (!view.commands.some((command) => command === 'tell-more' || command === 'tell-less')) return null;
  return html`<bf-guidance
    class="guidance"
    .level=${view.guidance}
    .commands=${view.commands}
    .words=${words}
    .language=${language}
  ></bf-guidance>`;
}
