import { LANGUAGES } from '#shared/words/language.ts';
import type { Language } from '#shared/words/language.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { CAUTION_IDS } from './words.ts';
import type { CautionId, Words } from './words.ts';

const ALL: Readonly<Record<Language, Words>> = { en, es };
const KEPT_AS = 'benchfold.language';

export function wordsOf(language: Language): Words {
  return ALL[language];
}

export function otherLanguage(language: Language): Language {
  return language === 'en' ? 'es' : 'en';
}

function asLanguage(text: string | null | undefined): Language | null {
  return LANGUAGES.find((each) => each === text?.slice(0, 2).toLowerCase()) ?? null;
}

/** The language last chosen on this screen, else the browser's, else English. */
export function screenLanguage(): Language {
  let kept: string | null = null;
  try {
    kept = localStorage.getItem(KEPT_AS);
  } catch {
    // No storage: the browser's language.
  }
  return asLanguage(kept) ?? asLanguage(navigator.language) ?? 'en';
}

export function keepLanguage(language: Language): void {
  try {
    localStorage.setItem(KEPT_AS, language);
  } catch {
    // No storage: the choice lasts as long as the page.
  }
}

/** Cautions that this screen has words for; an id it does not know shows nothing. */
export function knownCautions(ids: readonly string[]): readonly CautionId[] {
  return ids.flatMap((id) => CAUTION_IDS.find((known) => known === id) ?? []);
}
