import type { IncomingMessage } from 'node:http';
import type { StoredSession } from '#server/store/access-sessions.ts';
import type { Standing } from '#shared/access/roles.ts';

/** As whom a request or a socket comes. */
export interface Who {
  readonly standing: Standing;
  /** staff id; null where nobody has signed in, and for whoever sits at the computer of a shop that is not locked */
  readonly person: string | null;
  /** the paired device it comes from */
  readonly device: number | null;
  /** what the standing rests on; `unlocked`: the shop is not locked */
  readonly by: 'unlocked' | 'pin' | 'badge' | 'none';
  /** when it ends by itself, in milliseconds since the epoch; null where it does not */
  readonly until: number | null;
  /** what it rests on, where somebody has signed in */
  readonly session: StoredSession | null;
}

export const NOBODY: Who = { standing: 'nobody', person: null, device: null, by: 'none', until: null, session: null };
/** Whoever sits at this computer, while the shop is not locked. */
export const OWNER_HERE: Who = {
  standing: 'owner',
  person: null,
  device: null,
  by: 'unlocked',
  until: null,
  session: null,
};

const known = new WeakMap<IncomingMessage, Who>();

/** Notes as whom a request comes; only the guard does that. */
export function markRequest(request: IncomingMessage, who: Who): void {
  known.set(request, who);
}

/** As whom a request comes that has passed the guard. */
export function whoOf(request: IncomingMessage): Who {
  return known.get(request) ?? NOBODY;
}
