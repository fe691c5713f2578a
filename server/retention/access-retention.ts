import type { KeptForATime } from './retention.ts';
import { forgetOldTries } from '#server/store/access-secrets.ts';
import { forgetSessions } from '#server/store/access-sessions.ts';
import type { Store } from '#server/store/open.ts';
import { FORGOTTEN_AFTER_MS } from '#shared/access/limits.ts';

const SESSIONS_FOR_MS = 90 * 86_400_000;

/** Wrong tries that count no more, and sessions that were over long ago. */
export function accessRetention(store: Store): readonly KeptForATime[] {
  return [
    { what: 'access-tries', remove: (now) => forgetOldTries(store, now - FORGOTTEN_AFTER_MS) },
    { what: 'access-sessions', remove: (now) => forgetSessions(store, now - SESSIONS_FOR_MS) },
  ];
}
