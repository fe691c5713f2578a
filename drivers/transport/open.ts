import { deviceFileTransport } from './device-file.ts';
import { loadHidLibrary } from './hid-library.ts';
import { hidTransport } from './hid.ts';
import { identifiedSerialTransport, serialTransport } from './serial.ts';
import type { PortIdentity } from './serial-ports.ts';
import { tcpTransport } from './tcp.ts';
import type { TransportFactory } from './transport.ts';

/** Where a real (or simulated, then TCP) device is reached. */
export type DeviceAddress =
  | { readonly kind: 'tcp'; readonly host: string; readonly port: number }
  | { readonly kind: 'serial'; readonly path: string; readonly baud: number }
  /** by the adapter that the device hangs on, whatever name its port has today */
  | { readonly kind: 'serial-adapter'; readonly adapter: PortIdentity; readonly baud: number }
  /** a character device that is read and written as it is: a USB printer, a raw HID device */
  | { readonly kind: 'device-file'; readonly path: string }
  /** a USB HID scale, by its ids or as the only one */
  | { readonly kind: 'hid'; readonly device: PortIdentity };

/** The transport that an address in the config asks for. Nothing is opened yet. */
export function transportFor(address: DeviceAddress): TransportFactory {
  switch (address.kind) {
    case 'tcp':
      return tcpTransport(address.host, address.port);
    case 'serial':
      return serialTransport(address.path, address.baud);
    case 'serial-adapter':
      return identifiedSerialTransport(address.adapter, address.baud);
    case 'device-file':
      return deviceFileTransport(address.path);
    case 'hid':
      return hidTransport(address.device, loadHidLibrary);
  }
}
