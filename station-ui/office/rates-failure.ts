import type { RatesWords, WrongField } from '../i18n/rates-words.ts';
import { OfficeRequestError } from './api.ts';

/** What to say when a request about prices failed; anything else that was thrown goes on. */
export function failureWords(error: unknown, words: RatesWords): string {
  if (!(error instanceof OfficeRequestError)) throw error;
  if (error.code === 'no-answer') return words.failed(words.noServer);
  const known = Object.hasOwn(words.wrong, error.code) ? words.wrong[error.code as WrongField] : undefined;
  if (known !== undefined) return [known, ...error.problems.map(words.configProblem)].join('\n');
  return words.failed(error.message);
}
