import { createConnection } from 'node:net';
import type { Closed, Connection, LinkEvents, TransportFactory } from './transport.ts';

const OPEN_DEADLINE_MS = 3000;
const KEEP_ALIVE_MS = 2000;

/** Connections to a device that listens on a TCP port (a serial device server, a network printer). */
export function tcpTransport(host: string, port: number): TransportFactory {
  return { name: `${host}:${port}`, connect: (events) => connectTcp(host, port, events) };
}

function connectTcp(host: string, port: number, events: LinkEvents): Connection {
  const socket = createConnection({ host, port, noDelay: true, keepAlive: true, keepAliveInitialDelay: KEEP_ALIVE_MS });
  let open = false;
  let ended = false;
  let closedHere = false;
  let message = 'the device closed the connection';

  const deadline = setTimeout(() => {
    message = `no connection within ${OPEN_DEADLINE_MS} ms`;
    socket.destroy();
  }, OPEN_DEADLINE_MS);

  socket.on('connect', () => {
    clearTimeout(deadline);
    open = true;
    events.opened();
  });
  socket.on('data', (chunk) => {
    if (!ended) events.bytes(chunk);
  });
  socket.on('error', (error) => {
    message = error.message;
  });
  // A device that shuts its sending side will send no more: half-open is as good as gone.
  socket.on('end', () => socket.destroy());

  const finished = new Promise<void>((resolve) => {
    socket.on('close', () => {
      clearTimeout(deadline);
      const cause: Closed['cause'] = closedHere ? 'closed-here' : open ? 'link-lost' : 'cannot-open';
      open = false;
      ended = true;
      events.closed({ cause, message: closedHere ? 'closed' : message });
      resolve();
    });
  });

  return {
    write(bytes) {
      if (!open || ended || closedHere) return 'refused';
      socket.write(bytes);
      return 'sent';
    },
    async close() {
      if (!ended) {
        closedHere = true;
        // A reset instead of a polite end: what waits in the buffers must not reach the device later.
        if (open) socket.resetAndDestroy();
        else socket.destroy();
      }
      await finished;
    },
  };
}
