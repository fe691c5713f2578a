import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { BenchView } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { queueWords } from '../i18n/queue.ts';

/** The day in the head of the screen while something is packed; between two orders it stands large in the middle. */
export function dayCount(view: BenchView | null, language: Language): TemplateResult | null {
  if (view?.practice !== null) return null;
  if (view.task.at === 'idle' || view.task.at === 'done') return null;
  const { short, day } = queueWords[language];
  const { waiting, atRisk, missed, done } = view.day;
  const risk = atRisk + missed;
  return html`<p class="day-count" aria-label=${day} data-left=${waiting} data-risk=${risk} data-done=${done}>
    <span>${short.waiting(waiting)}</span>
    ${risk === 0 ? null : html`<span class="risk">${shape('attention', 20)} ${short.atRisk(risk)}</span>`}
    <span>${short.done(done)}</span>
  </p>`;
}

/** What is left, what may miss its collection, what is done; between two orders. */
export function dayLine(view: BenchView, language: Language, more: TemplateResult | null = null): TemplateResult {
  const { counts } = queueWords[language];
  const { waiting, atRisk, missed, done, setAside } = view.day;
  return html`<p class="say day">
    <b data-left=${waiting}>${counts.waiting(waiting)}</b>
    ${atRisk === 0 ? null : html`<span class="risk" data-risk=${atRisk}>${shape('attention', 28)} <b>${counts.atRisk(atRisk)}</b></span>`}
    ${missed === 0 ? null : html`<span class="risk" data-missed=${missed}>${shape('stop', 28)} <b>${counts.missed(missed)}</b></span>`}
    <span data-done=${done}>${counts.done(done)}</span>
    ${setAside === 0 ? null : html`<span data-set-aside=${setAside}>${counts.setAside(setAside)}</span>`} ${more}
  </p>`;
}
