import { createHash, randomBytes } from 'node:crypto';

/** 256 random bits after a beginning by which a leaked token is recognised. */
export function newToken(): string {
  return `bfi_${randomBytes(32).toString('base64url')}`;
}

/** What is kept of a token. It is random and long, so a plain hash cannot be guessed back. */
export function tokenHash(token: string): string {
  return createHash('sha256').update(token, 'utf8').digest('hex');
}

/** The token of an `Authorization: Bearer` header (RFC 6750); null where there is none. */
export function bearerOf(header: string | undefined): string | null {
  return /^Bearer +([A-Za-z0-9\-._~+/]+=*) *$/i.exec(header ?? '')?.[1] ?? null;
}
