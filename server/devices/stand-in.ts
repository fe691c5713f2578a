import { SIMULATED_PROTOCOLS } from '#shared/weighing/scale-protocols.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';
import type { DeviceName } from '#shared/wire/views.ts';

/** The bench with simulators in the place of some of its real devices. */
export function withSimulators(bench: BenchConfig, devices: ReadonlySet<DeviceName>): BenchConfig {
  const simulated = { kind: 'simulated' } as const;
  const { scale, scanner, printer } = bench;
  return {
    ...bench,
    scale: devices.has('scale')
      ? // A simulator knows no form that the owner described.
        {
          ...scale,
          transport: simulated,
          protocol: SIMULATED_PROTOCOLS.find((each) => each === scale.protocol) ?? 'continuous',
        }
      : scale,
    scanner: devices.has('scanner') && scanner !== null ? { ...scanner, transport: simulated } : scanner,
    printer: devices.has('printer') ? { ...printer, transport: simulated } : printer,
  };
}

/** The devices of a bench that its config does not simulate, which a simulator may stand in for. */
export function realDevices({ scale, scanner, printer }: BenchConfig): ReadonlySet<DeviceName> {
  const all = { scale: scale.transport, scanner: scanner?.transport, printer: printer.transport };
  return new Set(
    (['scale', 'scanner', 'printer'] as const).filter((name) => (all[name]?.kind ?? 'simulated') !== 'simulated'),
  );
}
