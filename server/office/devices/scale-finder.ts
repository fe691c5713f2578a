import { serialScaleText } from './setting-text.ts';
import { systemClock } from '#drivers/clock.ts';
import { findScale, type ScaleSearch } from '#drivers/scale/find-scale.ts';
import { listSerialPorts } from '#drivers/transport/serial-ports.ts';
import { transportFor } from '#drivers/transport/open.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massDigits, massFromBase } from '#shared/units/mass.ts';
import type { PortRow, ScaleFinding } from '#shared/wire/devices.ts';

/** Looks for the setting of a scale on a serial port, one search at a time. */
export class ScaleFinder {
  readonly #shop: () => Shop;
  readonly #listPorts: typeof listSerialPorts;
  #state: ScaleFinding = { at: 'idle' };

  constructor(shop: () => Shop, listPorts = listSerialPorts) {
    this.#shop = shop;
    this.#listPorts = listPorts;
  }

  state(): ScaleFinding {
    return this.#state;
  }

  async ports(): Promise<readonly PortRow[]> {
    const used = new Set(this.#usedPaths());
    const ports = await this.#listPorts();
    return ports.map(({ path, vendorId, productId, serialNumber }) => ({
      path,
      adapter: [vendorId, productId, serialNumber].filter((each) => each !== undefined).join(' '),
      inUse: used.has(path),
    }));
  }

  /** Begins a search; false while another one runs or where a device of a bench has the port open. */
  start(path: string): boolean {
    if (this.#state.at === 'listening' || this.#usedPaths().includes(path)) return false;
    this.#state = { at: 'listening', port: path, baud: 0 };
    void findScale({
      at: (baud) => transportFor({ kind: 'serial', path, baud }),
      clock: systemClock,
      onTry: (baud) => (this.#state = { at: 'listening', port: path, baud }),
    }).then(
      (search) => (this.#state = this.#ended(path, search)),
      () => (this.#state = { at: 'ended', port: path, found: null, tried: [] }),
    );
    return true;
  }

  #usedPaths(): readonly string[] {
    return this.#shop().benches.flatMap(({ scale, scanner, printer }) =>
      [scale.transport, scanner?.transport, printer.transport].flatMap((transport) =>
        transport?.kind === 'serial' || transport?.kind === 'device-file' ? [transport.path] : [],
      ),
    );
  }

  #ended(path: string, { proposal, tried }: ScaleSearch): ScaleFinding {
    if (proposal === null) return { at: 'ended', port: path, found: null, tried };
    const { baud, protocol, needsUnit, sample } = proposal;
    const unit = needsUnit ? this.#shop().units.mass : null;
    // Without a unit the number alone is shown: it was read in grams only to see whether it is a number.
    const digits = massDigits(massFromBase(sample.mass), sample.unit ?? 'g', sample.places);
    return {
      at: 'ended',
      port: path,
      found: {
        baud,
        protocol,
        needsUnit,
        text: sample.text,
        hex: sample.hex,
        weight: sample.unit === null ? digits : `${digits} ${sample.unit}`,
        yaml: serialScaleText({ path, baud, protocol, unit }),
      },
      tried,
    };
  }
}
