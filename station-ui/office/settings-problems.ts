import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import type { Language } from '#shared/words/language.ts';
import { configText, placeIn } from '../i18n/config-problems.ts';
import { settingsWords } from '../i18n/settings.ts';

/** What became of a change. */
export type Said = 'written' | 'same' | 'stillWrong' | 'holds';

/** "expected ...; found ..." in the screen's language. */
export function problemText({ expected, found }: ConfigProblem, language: Language): string {
  return settingsWords[language].problem(configText(expected, language), configText(found, language));
}

/** Problems with their file and line; a line can be gone to where the text is on the screen. */
export function problemList(
  problems: readonly ConfigProblem[],
  language: Language,
  goTo?: (problem: ConfigProblem) => void,
): TemplateResult {
  return html`<ul class="problems">
    ${problems.map((problem) => {
      const { file, line, path } = problem;
      const place = placeIn(file, line, path);
      return html`<li data-problem=${path}>
        ${
          goTo === undefined || line === null
            ? html`<b>${place}</b>`
            : html`<button type="button" class="place" @click=${() => goTo(problem)}>${place}</button>`
        }
        ${problemText(problem, language)}
      </li>`;
    })}
  </ul>`;
}
