import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { BenchView } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { sideWorkWords } from '../i18n/side-work.ts';

/** On every screen of a batch that is folded ahead: whose piece is at hand, and which basket it goes into. */
export function batchLine({ batch }: BenchView, language: Language): TemplateResult | null {
  if (batch === undefined) return null;
  const { index, of, order, basket } = batch;
  return html`<p class="small batch" data-batch=${order} data-basket=${basket}>
    ${shape('current', 24)} <b>${sideWorkWords[language].batch(index + 1, of, order, basket)}</b>
  </p>`;
}
