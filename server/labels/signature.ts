import { createHmac } from 'node:crypto';

/** HMAC with SHA-256 (RFC 2104, FIPS 198-1), in hexadecimal digits. */
export function hmacSha256(secret: Uint8Array, message: Uint8Array | string): string {
  return createHmac('sha256', secret).update(message).digest('hex');
}

/** What the signature header says: the time is signed with the body, so that an old delivery cannot be sent again as a new one. */
export function signatureOf(secret: Uint8Array, timestamp: number, body: string): string {
  return `v1=${hmacSha256(secret, `${String(timestamp)}.${body}`)}`;
}
