import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { BenchView } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { practiceWords } from '../i18n/practice.ts';
import { sideWorkWords } from '../i18n/side-work.ts';
import type { Words } from '../i18n/words.ts';

/** What "next" does here, said under its name; '' where the main command is another or asks for no words. */
export function mainMeans(view: BenchView, words: Words, language: Language): string {
  if (view.confirming !== null || view.commands[0] !== 'next') return '';
  const { task } = view;
  if (task.at === 'side') {
    const { means } = sideWorkWords[language];
    return task.screen === 'aside' || task.screen === 'containers' || task.screen === 'preparing'
      ? means.mark
      : means[task.screen];
  }
  if (task.at !== 'practice') return words.mainMeans[task.at];
  const said = practiceWords[language];
  const chooses = task.answer === null && task.options.length > 0;
  return chooses ? said.markNext : said.goOn;
}

/** Says on every screen of practice that it is practice. */
export function practiceChip(view: BenchView | null, language: Language): TemplateResult | null {
  if (view?.practice === undefined || view.practice === null) return null;
  const said = practiceWords[language];
  const skill = view.task.at === 'practice' ? null : view.practice.skill;
  return html`<p class="practice striped" data-practice>
    <b>${said.practice}</b><span>${skill === null ? '' : `: ${skill[language]}`}</span>
    <span class="only-read">${said.nothingKept}</span>
  </p>`;
}
