import { SET_ASIDE_REASONS } from '#shared/run/types.ts';
import type { Words } from './words.ts';

/** A reason that a packer chose, in words; what planning said as it is. */
export function reasonInWords(reason: string | null, words: Pick<Words, 'reasons'>): string | null {
  const known = SET_ASIDE_REASONS.find((each) => each === reason);
  return known === undefined ? reason : words.reasons[known];
}
