import { serveDevice } from '../transport/device-server.ts';
import { createMechanism, type Mechanism, type MechanismOptions } from './mechanism.ts';

export interface SimulatedPrinter extends Omit<Mechanism, 'attach'> {
  readonly port: number;
  unplug(): Promise<void>;
  plug(): Promise<void>;
  stop(): Promise<void>;
}

/** A simulated printer behind a TCP port. */
export async function startSimulatedPrinter(
  options: MechanismOptions & { readonly host?: string } = {},
): Promise<SimulatedPrinter> {
  const mechanism = createMechanism(options);
  const server = await serveDevice(options.host ?? '127.0.0.1', (stream) => mechanism.attach(stream));
  return {
    ...mechanism,
    port: server.port,
    unplug: () => server.unplug(),
    plug: () => server.plug(),
    stop: () => server.stop(),
  };
}
