import type { Server, Socket } from 'node:net';

/** A tablet's browser keeps six to ten; whoever opens many times as many means no good. */
const MOST_FROM_ONE_ADDRESS = 100;
/** What the whole shop may hold: each takes memory and one of the files that the system lets a program open. */
const MOST_IN_ALL = 2000;

export interface ConnectionLimits {
  readonly fromOneAddress?: number;
  /** of whom no connections are counted; this computer, also for what is passed on by a program on it */
  readonly exempt?: (address: string) => boolean;
}

/** Closes what comes beyond so many connections from one address, before a byte of it is read. */
export function limitConnections(
  server: Server,
  { fromOneAddress = MOST_FROM_ONE_ADDRESS, exempt = isThisComputer }: ConnectionLimits = {},
): void {
  const open = new Map<string, number>();
  server.maxConnections = MOST_IN_ALL;
  server.on('connection', (socket: Socket) => {
    const address = (socket.remoteAddress ?? '').replace(/^::ffff:/i, '');
    if (exempt(address)) return;
    const now = (open.get(address) ?? 0) + 1;
    if (now > fromOneAddress) {
      socket.destroy();
      return;
    }
    open.set(address, now);
    socket.once('close', () => {
      const left = (open.get(address) ?? 1) - 1;
      if (left === 0) open.delete(address);
      else open.set(address, left);
    });
  });
}

const isThisComputer = (address: string): boolean => address === '::1' || address.startsWith('127.');
