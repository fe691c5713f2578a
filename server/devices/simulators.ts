import { SIMULATED_PROTOCOLS, type SimulatedProtocol } from '#shared/weighing/scale-protocols.ts';
import { startSimulatedPrinter, type SimulatedPrinter } from '#drivers/printer/simulated-printer.ts';
import { startSimulatedScale, type SimulatedScale } from '#drivers/scale/simulated-scale.ts';
import { startSimulatedScanner, type SimulatedScanner } from '#drivers/scanner/simulated-scanner.ts';
import type { DeviceAddress } from '#drivers/transport/open.ts';
import type { BenchConfig, ScaleTransportConfig, Shop } from '#shared/shop/shop.ts';

/** The simulated devices of a bench; a real device has null here. */
export interface Simulators {
  readonly scale: SimulatedScale | null;
  readonly scanner: SimulatedScanner | null;
  readonly printer: SimulatedPrinter | null;
}

const HOST = '127.0.0.1';

/** Starts a simulator for each device that the config does not connect to a real one. */
export async function startSimulators(bench: BenchConfig, shop: Shop): Promise<Simulators> {
  const { scale, scanner, printer } = bench;
  return {
    scale:
      scale.transport.kind === 'simulated'
        ? await startSimulatedScale({
            protocol: simulatedProtocol(scale.protocol),
            division: scale.division,
            capacity: scale.capacity,
            unit: shop.units.mass,
            places: shop.units.massPlaces,
            host: HOST,
          })
        : null,
    scanner: scanner?.transport.kind === 'simulated' ? await startSimulatedScanner({ host: HOST }) : null,
    printer: printer.transport.kind === 'simulated' ? await startSimulatedPrinter({ host: HOST }) : null,
  };
}

/** The schema lets no form of the owner's own stand beside a simulated scale: nobody could say what it sends. */
function simulatedProtocol(protocol: BenchConfig['scale']['protocol']): SimulatedProtocol {
  const known = SIMULATED_PROTOCOLS.find((each) => each === protocol);
  if (known !== undefined) return known;
  throw new Error('a simulated scale that does not speak this protocol');
}

/** Where the driver reaches the device: a simulator is a device like any other, on a local socket. */
export function addressOf(
  transport: Exclude<ScaleTransportConfig, { kind: 'hid-on-screen' }>,
  simulator: { readonly port: number } | null,
): DeviceAddress {
  if (transport.kind !== 'simulated') return transport;
  if (simulator === null) throw new Error('a simulated device without its simulator');
  return { kind: 'tcp', host: HOST, port: simulator.port };
}

export async function stopSimulators(simulators: Simulators): Promise<void> {
  await Promise.all([simulators.scale?.stop(), simulators.scanner?.stop(), simulators.printer?.stop()]);
}
