import { serveDevice } from '../transport/device-server.ts';
import { createIndicator, type Indicator, type IndicatorOptions } from './indicator.ts';

export interface SimulatedScale extends Omit<Indicator, 'attach' | 'stop'> {
  readonly port: number;
  unplug(): Promise<void>;
  plug(): Promise<void>;
  stop(): Promise<void>;
}

/** A simulated scale behind a TCP port. It sends the bytes of a real one, so the driver cannot tell. */
export async function startSimulatedScale(
  options: IndicatorOptions & { readonly host?: string },
): Promise<SimulatedScale> {
  const indicator = createIndicator(options);
  const server = await serveDevice(options.host ?? '127.0.0.1', (stream) => indicator.attach(stream));
  return {
    ...indicator,
    port: server.port,
    unplug: () => server.unplug(),
    plug: () => server.plug(),
    async stop() {
      indicator.stop();
      await server.stop();
    },
  };
}
