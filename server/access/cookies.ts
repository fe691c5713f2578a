import type { IncomingMessage } from 'node:http';
import type { Response } from 'express';

/** `device`: which device this is, for years; `session`: who has signed in at the office, until the browser is closed. */
export type CookieName = 'device' | 'session';

const YEAR_MS = 365 * 86_400_000;

/** Over HTTPS a cookie of ours can neither be set by another host nor be sent in the clear (RFC 6265bis, `__Host-`). */
function fullName(name: CookieName, secure: boolean): string {
  return `${secure ? '__Host-' : ''}benchfold_${name}`;
}

/** The value of one of our cookies; null where it did not come along. */
export function cookieOf(
  { headers }: Pick<IncomingMessage, 'headers'>,
  name: CookieName,
  secure: boolean,
): string | null {
  const wanted = `${fullName(name, secure)}=`;
  for (const pair of (headers.cookie ?? '').split(';')) {
    const text = pair.trim();
    if (text.startsWith(wanted)) return /^[A-Za-z0-9_-]{20,100}$/.exec(text.slice(wanted.length))?.[0] ?? null;
  }
  return null;
}

export function giveCookie(response: Response, name: CookieName, value: string, secure: boolean): void {
  response.cookie(fullName(name, secure), value, {
    httpOnly: true,
    sameSite: 'strict',
    secure,
    path: '/',
    ...(name === 'device' ? { maxAge: YEAR_MS } : {}),
  });
}

export function takeCookie(response: Response, name: CookieName, secure: boolean): void {
  response.clearCookie(fullName(name, secure), { httpOnly: true, sameSite: 'strict', secure, path: '/' });
}
