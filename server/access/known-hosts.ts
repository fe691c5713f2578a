import type { IncomingMessage } from 'node:http';
import { isIP } from 'node:net';
import { hostname } from 'node:os';

/** The names under which this computer is asked for, beside its addresses. */
export function ownNames(further: readonly string[] = []): readonly string[] {
  const own = hostname().toLowerCase();
  const short = own.split('.')[0] ?? own;
  return [...new Set(['localhost', own, short, `${short}.local`, ...further.map((name) => name.toLowerCase())])];
}

/**
 * Whether a Host header (RFC 9110, 7.2) names this computer. A page of somebody else can make its own name point here, but
 * it cannot make an address its name: addresses are always right.
 */
function isOwnHost(header: string | undefined, names: readonly string[]): boolean {
  const name = hostOf(header);
  return name !== null && (isIP(name) !== 0 || names.includes(name));
}

/**
 * Whether a request is for this computer: one Host, which is ours, and no other one in its target (RFC 9112, 3.2). Two of them
 * are how one program on the way is made to see another host than the next.
 */
export function isForOwnHost({ headers, rawHeaders, url = '/' }: IncomingMessage, names: readonly string[]): boolean {
  const hosts = rawHeaders.filter((name, at) => at % 2 === 0 && name.toLowerCase() === 'host').length;
  const target = /^[a-z][a-z0-9+.-]*:\/\/([^/?#]*)/i.exec(url)?.[1];
  return hosts === 1 && isOwnHost(headers.host, names) && (target === undefined || isOwnHost(target, names));
}

/** The host of a Host header, without its port, in small letters; null for what is no host. */
function hostOf(header: string | undefined): string | null {
  if (header === undefined || !/^[A-Za-z0-9._:[\]-]+$/.test(header) || !URL.canParse(`http://${header}`)) return null;
  return new URL(`http://${header}`).hostname.replace(/^\[|\]$/g, '').replace(/\.$/, '');
}
