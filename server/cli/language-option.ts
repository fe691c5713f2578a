import { badInput } from './cli-error.ts';
import { optional, type Options } from './options.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { LANGUAGES, type Language } from '#shared/words/language.ts';

/** The language of sentences: --language, or the shop's. */
export function languageOption(options: Options, shop: Shop): Language {
  const text = optional(options, 'language');
  if (text === undefined) return shop.language;
  const language = LANGUAGES.find((known) => known === text);
  return language ?? badInput(`--language: expected one of ${LANGUAGES.join(', ')}; found "${text}"`);
}
