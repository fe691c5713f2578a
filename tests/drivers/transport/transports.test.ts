import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SerialPort, SerialPortMock } from 'serialport';
import { afterEach, describe, expect, test } from 'vitest';
import { serveDevice } from '#drivers/transport/device-server.ts';
import { transportFor } from '#drivers/transport/open.ts';
import { connectOver, identifiedSerialTransport } from '#drivers/transport/serial.ts';
import { portWithIdentity, type SerialPortInfo } from '#drivers/transport/serial-ports.ts';
import type { Closed, Connection, TransportFactory } from '#drivers/transport/transport.ts';
import { ptyPair } from '../support/pty-pair.ts';
import { ascii, until } from '../support/until.ts';

const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

function connect(transport: TransportFactory) {
  const log = { opened: 0, text: '', closed: [] as Closed[] };
  const connection: Connection = transport.connect({
    opened: () => (log.opened += 1),
    bytes: (chunk) => (log.text += Buffer.from(chunk).toString('latin1')),
    closed: (how) => log.closed.push(how),
  });
  ends.push(() => connection.close());
  return { log, connection };
}

/** Each kind with a far end that sends back what it gets, in capitals. */
const KINDS = {
  tcp: async () => {
    const server = await serveDevice('127.0.0.1', (stream) => {
      stream.on('data', (chunk: Buffer) => stream.write(chunk.toString('latin1').toUpperCase()));
    });
    ends.push(() => server.stop());
    return {
      transport: transportFor({ kind: 'tcp', host: '127.0.0.1', port: server.port }),
      cut: () => server.unplug(),
    };
  },
  serial: () => echoOnPty((path) => transportFor({ kind: 'serial', path, baud: 9600 })),
  'device-file': () => echoOnPty((path) => transportFor({ kind: 'device-file', path })),
  'serial-adapter': () =>
    echoOnPty((path) =>
      identifiedSerialTransport({ serialNumber: 'A7' }, 9600, () => Promise.resolve([{ path, serialNumber: 'A7' }])),
    ),
};
async function echoOnPty(make: (path: string) => TransportFactory) {
  const pair = await ptyPair();
  ends.push(() => pair.pull());
  const far = new SerialPort({ path: pair.theirs, baudRate: 9600 });
  far.on('error', () => undefined);
  far.on('data', (chunk: Buffer) => far.write(chunk.toString('latin1').toUpperCase()));
  ends.push(() => new Promise<void>((resolve) => (far.isOpen ? far.close(() => resolve()) : resolve())));
  return { transport: make(pair.ours), cut: () => pair.pull() };
}

describe.each(Object.keys(KINDS) as (keyof typeof KINDS)[])('%s', (kind) => {
  test('moves bytes both ways, and refuses them before and after', async () => {
    const { transport } = await KINDS[kind]();
    const { log, connection } = connect(transport);
    expect(connection.write(ascii('too early'))).toBe('refused');
    await until(() => log.opened === 1, 'opened');
    expect(connection.write(ascii('ready\r\n'))).toBe('sent');
    await until(() => log.text === 'READY\r\n', 'the echo');
    await connection.close();
    expect(log.closed).toEqual([{ cause: 'closed-here', message: 'closed' }]);
    expect(connection.write(ascii('too late'))).toBe('refused');
  });

  test('tells once that the far end is gone', async () => {
    const { transport, cut } = await KINDS[kind]();
    const { log, connection } = connect(transport);
    await until(() => log.opened === 1, 'opened');
    await cut();
    await until(() => log.closed.length === 1, 'closed', 2000);
    expect(log.closed[0]?.cause).toBe('link-lost');
    expect(connection.write(ascii('x'))).toBe('refused');
    await connection.close();
    expect(log.closed).toHaveLength(1);
  });

  test('closed before it is open: told once, never opened', async () => {
    const { transport } = await KINDS[kind]();
    const { log, connection } = connect(transport);
    await connection.close();
    expect(log.opened).toBe(0);
    expect(log.closed).toHaveLength(1);
  });
});

describe('a device file', () => {
  test('a missing path is not made into a file, and a regular file is no device', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'file-'));
    ends.push(() => {
      rmSync(folder, { recursive: true });
      return Promise.resolve();
    });
    const missing = join(folder, 'lp0');
    const first = connect(transportFor({ kind: 'device-file', path: missing }));
    await until(() => first.log.closed.length === 1, 'closed');
    expect(first.log.closed[0]?.cause).toBe('cannot-open');
    expect(existsSync(missing)).toBe(false);
    writeFileSync(missing, '');
    const second = connect(transportFor({ kind: 'device-file', path: missing }));
    await until(() => second.log.closed.length === 1, 'closed');
    expect(second.log.closed[0]).toMatchObject({ cause: 'cannot-open' });
    expect(second.log.opened).toBe(0);
  });
});

describe('a port whose stream', () => {
  const opened = async () => {
    const standIn = SerialPortMock.binding as { reset(): void; createPort(path: string): void };
    standIn.reset();
    standIn.createPort('/dev/scale');
    const port = new SerialPortMock({ path: '/dev/scale', baudRate: 9600, autoOpen: false });
    const link = connect({ name: 'stand-in', bytesPerSecond: 960, connect: (events) => connectOver(port, events) });
    await until(() => link.log.opened === 1, 'opened');
    return { port, ...link };
  };

  test.each([
    ['fails', (port: SerialPortMock) => void port.destroy(new Error('read error')), 'read error'],
    ['is closed with no word why', (port: SerialPortMock) => void port.destroy(), 'the line went away'],
    ['ends', (port: SerialPortMock) => void port.push(null), 'the line went away'],
    ['is told more after its end', (port: SerialPortMock) => (port.push(null), void port.push('x')), /after EOF/],
  ])('%s is lost, once, and gives up its port', async (_, happens, message) => {
    const { port, log, connection } = await opened();
    happens(port);
    await until(() => log.closed.length > 0, 'lost');
    await connection.close();
    expect(log.closed).toEqual([{ cause: 'link-lost', message: expect.stringMatching(message) as string }]);
    expect(connection.write(ascii('x'))).toBe('refused');
    await until(() => !port.isOpen, 'given up');
  });
});

describe('a port known by its adapter', () => {
  const ports: readonly SerialPortInfo[] = [
    { path: '/dev/ttyUSB0', serialNumber: 'A7', vendorId: '0403', productId: '6001' },
    { path: '/dev/ttyUSB1', serialNumber: 'B2', vendorId: '0403', productId: '6001' },
    { path: '/dev/ttyS0' },
  ];
  test.each([
    [{ serialNumber: 'b2' }, '/dev/ttyUSB1'],
    [{ serialNumber: 'A7', vendorId: '0403' }, '/dev/ttyUSB0'],
    [{ serialNumber: 'A7', vendorId: '9999' }, null],
    [{ vendorId: '0403', productId: '6001' }, null],
  ])('%j is %s', (identity, path) => {
    expect(portWithIdentity(ports, identity)?.path ?? null).toBe(path);
  });
  test('is found again under another name', async () => {
    const first = await ptyPair();
    const second = await ptyPair();
    ends.push(() => second.pull());
    let path = first.ours;
    const transport = identifiedSerialTransport({ serialNumber: 'A7' }, 9600, () =>
      Promise.resolve([{ path, serialNumber: 'A7' }]),
    );
    const before = connect(transport);
    await until(() => before.log.opened === 1, 'opened');
    await first.pull();
    await until(() => before.log.closed.length === 1, 'lost', 2000);
    path = second.ours;
    const after = connect(transport);
    await until(() => after.log.opened === 1, 'opened under the other name');
  });
  test('that is away cannot be opened', async () => {
    const { log } = connect(identifiedSerialTransport({ serialNumber: 'A7' }, 9600, () => Promise.resolve([])));
    await until(() => log.closed.length === 1, 'closed');
    expect(log.closed[0]).toMatchObject({ cause: 'cannot-open', message: 'no single port with A7' });
  });
});
