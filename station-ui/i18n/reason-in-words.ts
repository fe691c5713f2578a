import { unplannedWords } from '#shared/planning/unplanned-words.ts';
import { SET_ASIDE_REASONS } from '#shared/run/types.ts';
import type { Language } from '#shared/words/language.ts';
import type { Words } from './words.ts';

/** Why an order is set aside, in words: what a packer chose, or why there is no plan; an older text as it is. */
export function reasonInWords(reason: string | null, words: Pick<Words, 'reasons'>, language: Language): string | null {
  const chosen = SET_ASIDE_REASONS.find((each) => each === reason);
  if (chosen !== undefined) return words.reasons[chosen];
  return unplannedWords(reason)?.[language] ?? reason;
}
