import type { Duplex } from 'node:stream';
import { serveDevice } from '../transport/device-server.ts';

export interface SimulatedScanner {
  readonly port: number;
  /** Pulls the trigger over a code. */
  scan(text: string): void;
  unplug(): Promise<void>;
  plug(): Promise<void>;
  stop(): Promise<void>;
}

/** The sending part of a scanner: tells every attached stream the code and a CR. */
export function createScannerHead(end = '\r'): { scan(text: string): void; attach(stream: Duplex): void } {
  const streams = new Set<Duplex>();
  return {
    scan(text) {
      for (const stream of streams) stream.write(`${text}${end}`);
    },
    attach(stream) {
      streams.add(stream);
      stream.resume();
      const drop = (): void => void streams.delete(stream);
      stream.on('close', drop);
      stream.on('error', drop);
    },
  };
}

/** A simulated scanner behind a TCP port. */
export async function startSimulatedScanner(options: { readonly host?: string } = {}): Promise<SimulatedScanner> {
  const head = createScannerHead();
  const server = await serveDevice(options.host ?? '127.0.0.1', (stream) => head.attach(stream));
  return {
    port: server.port,
    scan: (text) => head.scan(text),
    unplug: () => server.unplug(),
    plug: () => server.plug(),
    stop: () => server.stop(),
  };
}
