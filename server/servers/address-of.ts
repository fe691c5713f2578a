import { hostname } from 'node:os';
import type { AddressInfo } from 'node:net';
import type { Server } from 'node:http';
import type { Reach } from '#server/network/reach.ts';

/** Where the pages of this server are, as other computers find them. */
export function addressOf(http: Server, { host, open }: Pick<Reach, 'host' | 'open'>): string {
  const { port } = http.address() as AddressInfo;
  const name = host === '0.0.0.0' || host === '::' ? hostname() : host === '127.0.0.1' ? 'localhost' : host;
  return `${open ? 'https' : 'http'}://${name.includes(':') ? `[${name}]` : name}:${String(port)}`;
}
