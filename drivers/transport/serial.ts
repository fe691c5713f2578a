import { SerialPort, type SerialPortMock } from 'serialport';
import { listSerialPorts, portWithIdentity, type PortIdentity, type SerialPortInfo } from './serial-ports.ts';
import type { Closed, Connection, LinkEvents, TransportFactory } from './transport.ts';

/** A start bit, eight data bits, a stop bit. */
const BITS_PER_BYTE = 10;

/** Connections to a device on a serial line, 8 data bits, no parity, one stop bit; the port is locked for us alone. */
export function serialTransport(path: string, baud: number): TransportFactory {
  return {
    name: `${path} at ${baud}`,
    bytesPerSecond: baud / BITS_PER_BYTE,
    connect: (events) => connectSerial(path, baud, events),
  };
}

/**
 * As {@link serialTransport}, but finds the port by its adapter each time it connects: a port that comes back under
 * another name is found again.
 */
export function identifiedSerialTransport(
  identity: PortIdentity,
  baud: number,
  list: () => Promise<readonly SerialPortInfo[]> = listSerialPorts,
): TransportFactory {
  const name = Object.values(identity).join(' ');
  return {
    name: `${name} at ${baud}`,
    bytesPerSecond: baud / BITS_PER_BYTE,
    connect: (events) => connectIdentified(identity, baud, list, events),
  };
}

function connectIdentified(
  identity: PortIdentity,
  baud: number,
  list: () => Promise<readonly SerialPortInfo[]>,
  events: LinkEvents,
): Connection {
  let inner: Connection | null = null;
  let closedHere = false;
  const found = list()
    .then((ports) => portWithIdentity(ports, identity))
    .catch(() => null)
    .then((port) => {
      if (closedHere) events.closed({ cause: 'closed-here', message: 'closed' });
      else if (port !== null) inner = connectSerial(port.path, baud, events);
      else events.closed({ cause: 'cannot-open', message: `no single port with ${Object.values(identity).join(' ')}` });
    });
  return {
    write: (bytes) => inner?.write(bytes) ?? 'refused',
    async close() {
      closedHere = true;
      await found;
      await inner?.close();
    },
  };
}

function connectSerial(path: string, baud: number, events: LinkEvents): Connection {
  return connectOver(new SerialPort({ path, baudRate: baud, autoOpen: false, lock: true }), events);
}

/** What the library says in other ways than it is typed: a stream that fails is closed with no word why. */
type MaybeError = Error | null | undefined;

/** Opens a port, and is what comes and goes through it. */
export function connectOver(port: SerialPort | SerialPortMock, events: LinkEvents): Connection {
  let open = false;
  let ended = false;
  let closedHere = false;
  let message = 'the line went away';
  let finish: () => void = () => undefined;
  const finished = new Promise<void>((resolve) => (finish = resolve));

  function end(cause: Closed['cause']): void {
    if (ended) return;
    ended = true;
    open = false;
    events.closed({ cause: closedHere ? 'closed-here' : cause, message: closedHere ? 'closed' : message });
    finish();
  }

  // Without this listener a failing line would be an uncaught error.
  port.on('error', (error) => {
    message = error.message;
    if (open) closePort();
  });
  port.on('close', (error: MaybeError) => {
    message = error?.message ?? message;
    end('link-lost');
    // The stream is gone, and the system still has the port locked for us.
    if (port.isOpen) closePort();
  });
  // Some adapters that are pulled tell the end of what there is to read, and nothing else.
  port.on('end', () => {
    if (open && !ended) closePort();
  });
  port.on('data', (chunk: Buffer) => {
    if (!ended && !closedHere) events.bytes(chunk);
  });

  function closePort(): void {
    // `close` waits for nothing that was written: a stalled device must not get it after all.
    port.flush(() => {
      port.close((error: MaybeError) => {
        if (error != null) end('link-lost');
      });
    });
  }

  port.open((error: MaybeError) => {
    if (error != null) {
      message = error.message;
      end('cannot-open');
      return;
    }
    if (closedHere) {
      closePort();
      return;
    }
    // What the line holds from before we came is the tail of something we did not see begin.
    port.flush(() => {
      if (ended || closedHere) return;
      open = true;
      events.opened();
    });
  });

  return {
    write(bytes) {
      if (!open || closedHere) return 'refused';
      port.write(Buffer.from(bytes));
      return 'sent';
    },
    async close() {
      if (!ended) {
        closedHere = true;
        if (port.isOpen) closePort();
        else if (!port.opening) end('closed-here');
      }
      await finished;
    },
  };
}
