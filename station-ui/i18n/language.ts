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

/** The one that the switch goes on to. */
export function otherLanguage(language: Language): Language {
  return LANGUAGES[(LANGUAGES.indexOf(language) + 1) % LANGUAGES.length] ?? 'en';
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
  dispatchEvent(new CustomEvent<Language>(LANGUAGE_KEPT, { detail: language }));
}

/** What stands around the part that switched speaks the other language, too. */
export const LANGUAGE_KEPT = 'benchfold.language-kept';

/** Other ids under which a shop's config may ask for the same caution. */
const SAME_CAUTION: Readonly<Record<string, CautionId>> = {
  'empty-pockets': 'pockets-lithium',
  'film-bag': 'film-bag-children',
};

/** Cautions that this screen has words for, each once; an id it does not know shows nothing. */
export function knownCautions(ids: readonly string[]): readonly CautionId[] {
  const known = ids.flatMap((id) => SAME_CAUTION[id] ?? CAUTION_IDS.find((each) => each === id) ?? []);
  return [...new Set(known)];
}
