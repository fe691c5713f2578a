import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { Language } from '#shared/words/language.ts';
import { fitsWords } from '../i18n/fits.ts';
import { learnedWords } from '../i18n/learned.ts';
import './learned.ts';
import './what-fits.ts';

/** A page of the office beside the orders: what its tab says and the element that it is. */
export interface OfficePage {
  /** the part of the address behind the # */
  readonly id: string;
  readonly title: (language: Language) => string;
  readonly page: (language: Language) => TemplateResult;
}

export const OFFICE_PAGES: readonly OfficePage[] = [
  {
    id: 'what-fits',
    title: (language) => fitsWords[language].title,
    page: (language) => html`<bf-what-fits .language=${language}></bf-what-fits>`,
  },
  {
    id: 'learned',
    title: (language) => learnedWords[language].title,
    page: (language) => html`<bf-learned .language=${language}></bf-learned>`,
  },
];

/** The page that the address names; null for the orders. */
export function pageOfAddress(hash: string): OfficePage | null {
  return OFFICE_PAGES.find(({ id }) => `#${id}` === hash) ?? null;
}
