import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import type { DiffLine } from '#shared/wire/settings.ts';
import type { Language } from '#shared/words/language.ts';
import { settingsWords } from '../i18n/settings.ts';

/** What is different between two texts, line by line. */
export function difference(lines: readonly DiffLine[], language: Language, name: string): TemplateResult {
  const words = settingsWords[language];
  if (lines.every(({ is }) => is === 'same' || is === 'gap')) return html`<p>${words.noDifference}</p>`;
  return html`<div class="difference" tabindex="0" role="region" aria-label=${name}>
    ${lines.map(
      ({ is, text, line }) =>
        html`<div class=${is} data-line=${is}>
          <span class="number">${is === 'gap' ? '' : line}</span><span class="mark">${words.marks[is]}</span
          ><code>${text}</code>
        </div>`,
    )}
  </div>`;
}

export const differenceStyles = css`
  .difference {
    overflow-x: auto;
    border-left: 3px dashed var(--thread);
    max-height: 60vh;
  }
  .difference div {
    display: grid;
    grid-template-columns: 52px 56px minmax(max-content, 1fr);
    gap: 8px;
    font-size: 15px;
  }
  .difference .number {
    color: var(--walnut);
    padding-right: 0;
  }
  .difference code {
    white-space: pre;
    font-family: ui-monospace, monospace;
  }
  .difference .come,
  .difference .gone {
    background: var(--kraft);
    font-weight: 700;
  }
  .difference .gone code {
    text-decoration: line-through;
  }
`;
