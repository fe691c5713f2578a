import { StoreError } from '#server/store/store-error.ts';

export const INSUFFICIENT_PRIVILEGE = '42501';

/** What each code of PostgreSQL or of the system means to whoever starts the server. */
const MEANINGS: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'a PostgreSQL that answers, found none there; is it running?',
  ENOENT: 'a PostgreSQL that answers, found none there; is it running?',
  ETIMEDOUT: 'a PostgreSQL that answers, found none within 10 seconds',
  EHOSTUNREACH: 'a PostgreSQL that answers, found no way to that computer',
  ENOTFOUND: 'a computer of that name, found none',
  EAI_AGAIN: 'a computer of that name, found none',
  '28P01': 'the password of that user, found another',
  '28000': 'a user who may connect, found one who may not',
  '3D000': 'a database of that name, found none; make it with createdb',
  [INSUFFICIENT_PRIVILEGE]: 'a user who may make tables, found one who may not; let the user own the database',
  '53300': 'a free connection, found all taken; raise max_connections',
  '57P03': 'a PostgreSQL that answers, found one that is still starting',
};

/** An error of the first connection as one line for the console; nothing of the address but its name is in it. */
export function openingError(error: unknown, place: string): StoreError {
  const code = codeOf(error);
  const why = error instanceof Error ? error.message : String(error);
  const timeout = why.includes('timeout') ? MEANINGS['ETIMEDOUT'] : undefined;
  return new StoreError(
    'cannot-open',
    `${place}: expected ${MEANINGS[code] ?? timeout ?? `to connect, found ${why}`}`,
    error,
  );
}

export function codeOf(error: unknown): string {
  if (error instanceof AggregateError) return codeOf(error.errors[0]);
  const code: unknown = typeof error === 'object' && error !== null && 'code' in error ? error.code : undefined;
  return typeof code === 'string' ? code : '';
}
