import { execFileSync } from 'node:child_process';
import { createServer, type AddressInfo, type Socket } from 'node:net';
import { SerialPort } from 'serialport';
import { io } from 'socket.io-client';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { LiveScale } from '#shared/wire/views.ts';
import { ptyPair } from '../drivers/support/pty-pair.ts';
import { copyOfConfig, edit, removeConfigFolders } from '../support/config-folder.ts';
import { startProcess, temporaryFolder } from '../support/server-process.ts';
import { atMost, plain, type Figure } from './figure.ts';

const BENCH = 'devices';
/** A scale's own pace; a screen is told no more often. */
const EVERY_MS = 110;

/** The far end of a scale's line: what is written there goes to the server. */
interface FarEnd {
  /** the lines for the scale's transport in devices.yaml */
  readonly transport: string;
  write(frame: string): void;
  end(): Promise<void>;
}

async function overTcp(): Promise<FarEnd> {
  const sockets = new Set<Socket>();
  const server = createServer({ noDelay: true }, (socket) => {
    sockets.add(socket);
    socket.on('error', () => sockets.delete(socket));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    transport: `{ kind: tcp, host: 127.0.0.1, port: ${String((server.address() as AddressInfo).port)} }`,
    write: (frame) => sockets.forEach((socket) => socket.write(frame)),
    end: () =>
      new Promise((resolve) => {
        for (const socket of sockets) socket.destroy();
        server.close(() => resolve());
      }),
  };
}

async function overSerial(): Promise<FarEnd> {
  const pair = await ptyPair();
  const far = new SerialPort({ path: pair.theirs, baudRate: 115200 });
  far.on('error', () => undefined);
  return {
    transport: `{ kind: serial, path: ${pair.ours}, baud: 115200 }`,
    write: (frame) => void far.write(frame),
    async end() {
      await new Promise<void>((resolve) => (far.isOpen ? far.close(() => resolve()) : resolve()));
      await pair.pull();
    },
  };
}

/**
 * From the write at the far end of a scale's line, through the server in a process of its own, to the reading at a
 * screen's end of the socket.
 */
export async function frameToScreen(frames = 400): Promise<readonly Figure[]> {
  // The server that is measured is the one that is written here.
  execFileSync(process.execPath, [new URL('../../server/build.mjs', import.meta.url).pathname]);
  const figures: Figure[] = [];
  for (const [name, open] of [
    ['a TCP socket', overTcp],
    ['a pseudo-terminal', overSerial],
  ] as const) {
    const far = await open();
    const times = await measure(far, frames);
    await far.end();
    const at = (share: number): number => times[Math.floor(times.length * share)] ?? Number.NaN;
    const against = `${String(times.length)} frames over ${name}, the server a process of its own, a screen on its socket`;
    figures.push(
      atMost({ bench: BENCH, name: `frame to screen, p99, ${name}`, value: at(0.99), unit: 'ms', goal: 20, against }),
      plain({ bench: BENCH, name: `frame to screen, p50, ${name}`, value: at(0.5), unit: 'ms', against }),
    );
  }
  return figures;
}

async function measure(far: FarEnd, frames: number): Promise<readonly number[]> {
  const data = temporaryFolder('frame-to-screen');
  const config = copyOfConfig();
  edit(config, 'devices.yaml', 'transport: { kind: simulated }', `transport: ${far.transport}`);
  const server = await startProcess({ data: data.path, config });
  const screen = io(`${server.url}/bench`, { auth: { bench: 'bench-1' }, transports: ['websocket'] });
  const times: number[] = [];
  let wanted = -1;
  let sentAt = 0;
  let seen: () => void = () => undefined;
  screen.on('scale', ({ reading }: LiveScale) => {
    if (reading?.mass !== wanted) return;
    times.push(performance.now() - sentAt);
    wanted = -1;
    seen();
  });
  const send = async (tenths: number): Promise<void> => {
    const digits = (tenths / 10).toFixed(1);
    const arrived = new Promise<void>((resolve) => (seen = resolve));
    wanted = massFromDecimal(digits, 'oz');
    sentAt = performance.now();
    far.write(`US,GS,+${digits.padStart(7)}oz\r\n`);
    await Promise.race([arrived, new Promise((resolve) => setTimeout(resolve, 2000))]);
  };
  // Until the line is open and the code is warm.
  for (let turn = 0; turn < 30; turn += 1) {
    await send(5000 + turn);
    await new Promise((resolve) => setTimeout(resolve, EVERY_MS));
  }
  times.length = 0;
  for (let turn = 0; turn < frames; turn += 1) {
    await send(turn + 1);
    await new Promise((resolve) => setTimeout(resolve, EVERY_MS));
  }
  screen.disconnect();
  await server.stop();
  data.remove();
  removeConfigFolders();
  return times.sort((a, b) => a - b);
}
