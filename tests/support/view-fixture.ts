import { ounces, FACTS } from './run-fixtures.ts';
import { benchView } from '#shared/run/view/bench-view.ts';
import type { RunState } from '#shared/run/types.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import { money } from '#shared/units/money.ts';
import { USUAL_MANNER } from '#shared/wire/speech.ts';
import type { BenchView } from '#shared/wire/views.ts';

const BENCH: BenchConfig = {
  id: 'bench-1',
  name: 'Bench 1',
  scale: {
    transport: { kind: 'simulated' },
    protocol: 'continuous',
    division: ounces('0.1'),
    capacity: ounces('1120'),
    accuracy: FACTS.weigh.accuracy,
    drift: FACTS.weigh.drift,
  },
  scanner: { transport: { kind: 'simulated' } },
  printer: { transport: { kind: 'simulated' }, paper: 80, dotsPerLine: 576, columns: 48, cutter: true },
  footSwitchKeys: { main: ['PageDown'], commands: {} },
};

/** Just the parts of a shop that a view reads. */
const SHOP: Shop = {
  name: 'A shop',
  currency: 'USD',
  timeZone: 'America/Chicago',
  language: 'en',
  units: { mass: 'oz', massPlaces: 1, length: 'in' },
  from: { postcode: '55802', country: 'US' },
  address: [],
  slip: { thanks: { en: 'Thanks', es: 'Gracias' }, returns: { en: 'Returns', es: 'Devoluciones' } },
  labour: { perHour: money(1800, 'USD'), repackSeconds: 120 },
  collections: [],
  wardrobe: { kinds: new Map(), cloths: new Map() },
  recipes: new Map(),
  containers: new Map(),
  wraps: new Map(),
  rates: { cards: [], places: () => null },
  additions: [],
  staff: [],
  benches: [BENCH],
  importAliases: { pieces: {}, orders: {} },
  importFormats: { days: [], shipByTime: '16:30', decimalMark: 'point' },
};

/** The invented shop with what a test wants otherwise. */
export function shopOf(otherwise: Partial<Shop>): Shop {
  return { ...SHOP, ...otherwise };
}

/** The view of a state at an invented bench of that shop. */
export function benchViewFixture(
  state: RunState,
  otherwise: Partial<Shop> = {},
  facts = FACTS,
  transport = BENCH.scale.transport,
): BenchView {
  return benchView(state, {
    shop: shopOf(otherwise),
    bench: { ...BENCH, scale: { ...BENCH.scale, transport } },
    seq: 1,
    facts,
    day: { waiting: 0, setAside: 0, done: 0, atRisk: 0, missed: 0 },
    simulated: true,
    speech: { ...USUAL_MANNER, on: true, engine: 'working' },
  });
}
