import type { Station } from '#server/runs/station.ts';
import { parcelHere } from '#shared/run/here.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massFromGrams, parseMass, subtractMass, ZERO_MASS, type Mass } from '#shared/units/mass.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import { typedQuantity } from '#shared/units/typed.ts';
import type { SimulatorAction } from '#shared/wire/events.ts';

/** The tray asked for something that cannot be simulated here. */
export class SimulationRefused extends Error {
  override readonly name = 'SimulationRefused';
  readonly code: 'not-simulated' | 'bad-request';

  constructor(code: SimulationRefused['code'], message: string) {
    super(message);
    this.code = code;
  }
}

/** How long a printer hears nothing after its power blinked. */
const PRINTER_STARTS_FOR_MS = 1200;

function need<Simulator>(simulator: Simulator | null, device: string): Simulator {
  if (simulator === null) throw new SimulationRefused('not-simulated', `The ${device} of this bench is a real one.`);
  return simulator;
}

/** Does with a simulated device what a hand would do with a real one. What follows comes back through its bytes. */
export async function simulate(station: Station, shop: Shop, action: SimulatorAction): Promise<void> {
  const { scale, scanner, printer } = station.devices.simulators;
  switch (action.do) {
    case 'put-mass':
      need(scale, 'scale').putMass(massOf(action.mass, shop));
      break;
    case 'put-expected':
      need(scale, 'scale').putMass(expectedOnScale(station));
      break;
    case 'empty-pan':
      need(scale, 'scale').emptyPan();
      break;
    case 'drift':
      need(scale, 'scale').drift(massOf(action.mass, shop));
      break;
    case 'scan':
      need(scanner, 'scanner').scan(action.text);
      break;
    case 'paper':
      need(printer, 'printer').setPaper(action.state);
      break;
    case 'printer': {
      const mechanism = need(printer, 'printer');
      if (action.does === 'restart') mechanism.reset(PRINTER_STARTS_FOR_MS);
      else mechanism.setCover(action.does === 'open-cover');
      break;
    }
    case 'plug':
    case 'unplug':
      await need({ scale, scanner, printer }[action.device], action.device)[action.do]();
  }
}

/** A number without a unit is in the shop's unit, with decimals as the shop writes them. */
function massOf(text: string, shop: Shop): Mass {
  try {
    return parseMass(typedQuantity(text, shop.importFormats.decimalMark, shop.units.mass));
  } catch (error) {
    if (error instanceof UnitError) throw new SimulationRefused('bad-request', error.message);
    throw error;
  }
}

function expectedOnScale(station: Station): Mass {
  const parcel = parcelHere(station.shownRun);
  if (parcel === undefined) throw new SimulationRefused('bad-request', 'No parcel is being packed at this bench.');
  const onScale = subtractMass(massFromGrams(parcel.mass.mean), parcel.toCome.mass);
  return onScale > 0 ? onScale : ZERO_MASS;
}
