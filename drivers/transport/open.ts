import { serialTransport } from './serial.ts';
import { tcpTransport } from './tcp.ts';
import type { TransportFactory } from './transport.ts';

/** Where a real (or simulated, then TCP) device is reached. */
export type DeviceAddress =
  | { readonly kind: 'tcp'; readonly host: string; readonly port: number }
  | { readonly kind: 'serial'; readonly path: string; readonly baud: number };

/** The transport that an address in the config asks for. Nothing is opened yet. */
export function transportFor(address: DeviceAddress): TransportFactory {
  return address.kind === 'tcp'
    ? tcpTransport(address.host, address.port)
    : serialTransport(address.path, address.baud);
}
