import type { Request } from 'express';

/** Who has signed in where a request comes from, by staff id; null where nobody has. */
export function whoAsks(request: Request): string | null {
  const person: unknown = request.res?.locals['person'];
  return typeof person === 'string' ? person : null;
}
