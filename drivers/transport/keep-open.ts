import type { Clock } from '../clock.ts';
import type { Closed, Connection, Pressed, TransportFactory } from './transport.ts';

const FIRST_WAIT_MS = 250;
const LONGEST_WAIT_MS = 5000;
/** A link that lasted this long was a good one: the next loss is retried quickly again. */
const GOOD_AFTER_MS = 2000;

/** What happens on one connection. Made anew for each, so no half frame outlives its connection. */
export interface Session {
  bytes(chunk: Uint8Array): void;
  /** the connection is gone; stop timers, give up what was waited for */
  ended(): void;
}

/** The sending side of one open connection. */
export type Send = (bytes: Uint8Array) => 'sent' | 'refused';
/** Sets a control that the device itself describes. */
export type Press = (usage: number) => Pressed;

export interface OpenLink {
  start(): void;
  stop(): Promise<void>;
  /** Drops the connection, if any, and makes a new one: for a line that is open and dead. */
  renew(): void;
}

/**
 * Keeps a device connected: opens, and after every failure or loss opens again, with waits that double from 250 ms to
 * 5 s, for ever.
 */
export function keepOpen(parts: {
  readonly transport: TransportFactory;
  readonly clock: Clock;
  readonly session: (send: Send, press: Press) => Session;
  readonly onLost: (how: Closed) => void;
}): OpenLink {
  const { transport, clock } = parts;
  let running = false;
  let wait = FIRST_WAIT_MS;
  let connection: Connection | null = null;
  let cancelRetry: () => void = () => undefined;

  function connect(): void {
    let session: Session | null = null;
    let openedAt = 0;
    const mine = transport.connect({
      opened() {
        openedAt = clock.now();
        session = parts.session(
          (bytes) => mine.write(bytes),
          (usage) => mine.press?.(usage) ?? 'not-supported',
        );
      },
      bytes: (chunk) => session?.bytes(chunk),
      closed(how) {
        const lasted = session === null ? 0 : clock.now() - openedAt;
        session?.ended();
        session = null;
        if (connection === mine) connection = null;
        if (!running) return;
        if (lasted >= GOOD_AFTER_MS) wait = FIRST_WAIT_MS;
        if (how.cause !== 'closed-here') parts.onLost(how);
        cancelRetry = clock.after(wait, connect);
        wait = Math.min(wait * 2, LONGEST_WAIT_MS);
      },
    });
    connection = mine;
  }

  return {
    start() {
      if (running) return;
      running = true;
      wait = FIRST_WAIT_MS;
      connect();
    },
    async stop() {
      running = false;
      cancelRetry();
      await connection?.close();
      connection = null;
    },
    renew() {
      void connection?.close();
    },
  };
}
