import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { BenchView } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { careWords } from '../i18n/care.ts';

/** A pause is due: said between two orders, never in one. */
export function pauseLine({ pause }: BenchView, language: Language): TemplateResult | null {
  if (pause === undefined || pause === null) return null;
  return html`<p class="say" style="display:flex;gap:14px;align-items:center" data-pause=${pause.worked}>
    ${shape('attention', 32)} <b>${careWords[language].pause(pause.worked, pause.rest)}</b>
  </p>`;
}
