import type { Connection, LinkEvents, TransportFactory } from './transport.ts';

/** The far end of one scripted connection. */
export interface FarEnd {
  /** every write that was accepted, oldest first */
  readonly written: readonly Uint8Array[];
  open(): void;
  say(bytes: Uint8Array | string): void;
  hangUp(message?: string): void;
  readonly closed: boolean;
}

export interface ScriptedTransport extends TransportFactory {
  /** one for each connection that was asked for, oldest first */
  readonly connections: readonly FarEnd[];
  /** the newest connection; throws when nobody connected yet */
  latest(): FarEnd;
}

/**
 * A transport whose far end is driven by hand.
 * @param onConnect what the far end does when somebody connects; opens at once unless given
 * @param onWrite how the far end answers
 */
export function scriptedTransport(
  onConnect: (farEnd: FarEnd, index: number) => void = (farEnd) => farEnd.open(),
  onWrite: (farEnd: FarEnd, bytes: Uint8Array) => void = () => undefined,
): ScriptedTransport {
  const connections: FarEnd[] = [];
  return {
    name: 'scripted',
    connections,
    latest() {
      const last = connections.at(-1);
      if (last === undefined) throw new Error('scripted transport: nobody connected yet');
      return last;
    },
    connect(events) {
      const { farEnd, connection } = scriptedConnection(events, onWrite);
      connections.push(farEnd);
      const index = connections.length - 1;
      // A real port never opens inside the call that asks for it.
      queueMicrotask(() => onConnect(farEnd, index));
      return connection;
    },
  };
}

function scriptedConnection(
  events: LinkEvents,
  onWrite: (farEnd: FarEnd, bytes: Uint8Array) => void,
): { farEnd: FarEnd; connection: Connection } {
  const written: Uint8Array[] = [];
  let stage: 'opening' | 'open' | 'closed' = 'opening';
  const farEnd: FarEnd = {
    written,
    get closed() {
      return stage === 'closed';
    },
    open() {
      if (stage !== 'opening') return;
      stage = 'open';
      events.opened();
    },
    say(bytes) {
      if (stage === 'open') events.bytes(typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes);
    },
    hangUp(message = 'hung up') {
      if (stage === 'closed') return;
      const cause = stage === 'open' ? 'link-lost' : 'cannot-open';
      stage = 'closed';
      events.closed({ cause, message });
    },
  };
  const connection: Connection = {
    write(bytes) {
      if (stage !== 'open') return 'refused';
      written.push(bytes.slice());
      onWrite(farEnd, bytes);
      return 'sent';
    },
    close() {
      if (stage !== 'closed') {
        stage = 'closed';
        events.closed({ cause: 'closed-here', message: 'closed' });
      }
      return Promise.resolve();
    },
  };
  return { farEnd, connection };
}
