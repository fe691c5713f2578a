import { createHash } from 'node:crypto';

/** Names what is in a file; empty for one that is not there. */
export function digestOf(text: string | null): string {
  return text === null ? '' : createHash('sha256').update(text).digest('hex');
}
