import type { IncomingMessage } from 'node:http';

const READS: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Whether a request was made by a page of this server, by somebody who typed the address, or by a program that is no
 * browser. Browsers say where a request comes from: `Sec-Fetch-Site` (W3C Fetch Metadata), `Origin` (RFC 6454). Another
 * port of this computer is another site here.
 */
export function isOwnRequest({ method = 'GET', headers }: Pick<IncomingMessage, 'method' | 'headers'>): boolean {
  const site = headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') {
    // Following a link to here is fine; nothing is changed by it.
    return READS.has(method) && headers['sec-fetch-mode'] === 'navigate';
  }
  if (headers.origin === undefined || READS.has(method)) return true;
  return isOwnOrigin(headers.origin, headers.host);
}

/** Whether a page under this origin was served by the host that is asked. */
export function isOwnOrigin(origin: string, host: string | undefined): boolean {
  return host !== undefined && URL.canParse(origin) && new URL(origin).host === new URL(`http://${host}`).host;
}
