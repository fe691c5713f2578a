import type { AccessView } from '#shared/wire/access.ts';
import { PIN_PROBLEMS } from '#shared/access/pin.ts';
import type { AccessWords } from '../i18n/access.ts';
import { rememberShopZone } from '../i18n/time.ts';

/** Nothing came back, or something that cannot be read, or a refusal. */
export type Entered = { readonly ok: true } | { readonly ok: false; readonly error: string; readonly seconds: number };

export async function readAccess(): Promise<AccessView | null> {
  try {
    const answer = await fetch('/api/access');
    if (!answer.ok) return null;
    const access = (await answer.json()) as AccessView;
    rememberShopZone(access.timeZone);
    return access;
  } catch {
    return null;
  }
}

/** Pairs, signs in or out, or sets a PIN. */
export async function enter(what: 'pair' | 'sign-in' | 'sign-out' | 'set-up', body: object): Promise<Entered> {
  try {
    const answer = await fetch(`/api/access/${what}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    if (answer.ok) return { ok: true };
    const { error = '', seconds = 0 } = (await answer.json()) as { error?: string; seconds?: number };
    return { ok: false, error, seconds };
  } catch {
    return { ok: false, error: 'no-answer', seconds: 0 };
  }
}

/** Why nobody was let in, in words. */
export function whyNot(
  words: AccessWords,
  { error, seconds }: { readonly error: string; readonly seconds: number },
): string {
  const problem = PIN_PROBLEMS.find((each) => each === error);
  if (problem !== undefined) return words.problems[problem];
  if (error === 'wait') return words.wait(seconds);
  if (error === 'busy') return words.busy;
  return error === 'no-answer' ? words.noServer : words.wrong;
}
