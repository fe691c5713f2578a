import { createServer, type Server, type Socket } from 'node:net';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';

/** A simulated device's socket: what a serial device server or a network printer offers. */
export interface DeviceServer {
  readonly port: number;
  /** Pulls the cable: every connection breaks and new ones are refused. */
  unplug(): Promise<void>;
  /** Puts the cable back, on the same port. */
  plug(): Promise<void>;
  stop(): Promise<void>;
}

/** Listens on a free port and hands each connection's byte stream to the device. */
export async function serveDevice(host: string, onStream: (stream: Duplex) => void): Promise<DeviceServer> {
  const sockets = new Set<Socket>();
  let server: Server | null = null;

  async function listen(port: number): Promise<number> {
    const fresh = createServer({ noDelay: true }, (socket) => {
      sockets.add(socket);
      socket.on('error', () => socket.destroy());
      socket.on('close', () => sockets.delete(socket));
      onStream(socket);
    });
    await new Promise<void>((resolve, reject) => {
      fresh.once('error', reject);
      fresh.listen(port, host, resolve);
    });
    server = fresh;
    return (fresh.address() as AddressInfo).port;
  }

  async function shut(): Promise<void> {
    const old = server;
    server = null;
    if (old === null) return;
    const closed = new Promise<void>((resolve) => old.close(() => resolve()));
    for (const socket of sockets) socket.resetAndDestroy();
    await closed;
  }

  const port = await listen(0);
  return {
    port,
    unplug: shut,
    async plug() {
      if (server === null) await listen(port);
    },
    stop: shut,
  };
}
