import type { Clock } from '#server/clock.ts';
import type { Station } from '#server/runs/station.ts';
import { labelQueue } from '#server/labels/label-queue.ts';
import type { Store } from '#server/store/open.ts';
import { printJobs } from '#server/store/print-jobs.ts';
import { referenceChecks } from '#server/store/reference-checks.ts';
import { hexOf, textOf } from '#drivers/trace.ts';
import { realDevices } from '#server/devices/stand-in.ts';
import { calendarDay } from '#server/calendar.ts';
import type { BenchConfig, ScaleTransportConfig, Shop } from '#shared/shop/shop.ts';
import { massFromBase } from '#shared/units/mass.ts';
import { LEAST_CORRECTIONS } from '#shared/weighing/bias.ts';
import type { BenchDesk, DeviceRow, DevicesView, ReferenceCheckRow } from '#shared/wire/devices.ts';
import type { DeviceHealth } from '#shared/wire/views.ts';

const JOBS_SHOWN = 12;
const CHECKS_SHOWN = 10;
/** Of the 256 kept bytes as many as a line or two can show. */
const BYTES_SHOWN = 48;

export interface DesksParts {
  readonly store: Store;
  readonly shop: Shop;
  readonly clock: Clock;
  readonly stations: ReadonlyMap<string, Station>;
}

/** Every device of every bench as it is now. */
export async function devicesView(parts: DesksParts): Promise<DevicesView> {
  const { shop, clock, stations } = parts;
  const benches = await Promise.all([...stations.values()].map((station) => deskOf(station, parts)));
  return { now: clock.now(), unit: shop.units.mass, places: shop.units.massPlaces, benches };
}

async function deskOf(station: Station, { store, shop, clock }: DesksParts): Promise<BenchDesk> {
  const { bench, devices } = station;
  const live = devices.live();
  const checks = await referenceChecks(store, bench.id, CHECKS_SHOWN);
  const learned = station.trust.learned();
  const today = calendarDay(clock.now(), shop.timeZone);
  const newest = checks[0];
  return {
    bench: { id: bench.id, name: bench.name },
    devices: devices.health().map((health) => rowOf(health, station)),
    live: live.reading,
    needsZeroing: live.needsZeroing ?? null,
    testScan: station.testScan.state(),
    jobs: await printJobs(store, bench.id, JOBS_SHOWN),
    labelPrinter: await labelPrinterOf(station, store),
    reference: bench.scale.reference?.mass ?? null,
    checkDue:
      bench.scale.reference !== undefined &&
      (newest === undefined || !newest.passed || calendarDay(newest.at, shop.timeZone) !== today),
    checks: checks.map((check): ReferenceCheckRow => ({
      at: check.at,
      reference: massFromBase(check.reference),
      reading: massFromBase(check.reading),
      unit: check.unit as ReferenceCheckRow['unit'],
      places: check.places,
      deviation: massFromBase(check.deviation),
      allowed: massFromBase(check.allowed),
      passed: check.passed,
    })),
    learned:
      learned === null
        ? null
        : {
            parcels: learned.parcels,
            mean: learned.mean,
            sdGrams: Number.isFinite(learned.sdGrams) ? learned.sdGrams : null,
            counts: learned.parcels >= LEAST_CORRECTIONS,
          },
    weighing: station.run.state.step.at === 'weigh' || station.run.state.step.at === 'decide',
  };
}

const LABELS_SHOWN = 5;

async function labelPrinterOf({ bench, labels }: Station, store: Store): Promise<BenchDesk['labelPrinter']> {
  const { labelPrinter: configured } = bench;
  const health = labels.printer?.health() ?? null;
  if (configured === undefined || health === null) return null;
  const { state, trouble, since } = health;
  return {
    ...{ state, trouble, since },
    place: placeOf(configured.transport),
    speaks: configured.speaks,
    answers: configured.speaks === 'escpos' && configured.status !== 'none',
    simulated: configured.transport.kind === 'simulated',
    failure: labels.printer?.failure() ?? null,
    jobs: await printJobs(store, labelQueue(bench.id), LABELS_SHOWN),
  };
}

function rowOf(health: DeviceHealth, { bench: configured, devices }: Station): DeviceRow {
  const { bench } = devices;
  const { device } = health;
  const transport = transportOf(bench, device);
  const trace = devices.trace(device);
  const bytes = trace?.lastBytes.slice(-BYTES_SHOWN) ?? new Uint8Array();
  return {
    device,
    health,
    place: placeOf(transport),
    protocol: device === 'scale' ? protocolName(bench.scale.protocol) : null,
    simulated: transport.kind === 'simulated',
    real: realDevices(configured).has(device),
    onScreen: transport.kind === 'hid-on-screen',
    lastHex: hexOf(bytes),
    lastText: textOf(bytes),
    lastAt: trace?.lastAt ?? null,
    bytes: trace?.bytes ?? 0,
    good: trace?.good ?? 0,
    discarded: trace?.discarded ?? 0,
    connections: trace?.connections ?? 0,
    failure: health.state === 'lost' ? (trace?.failure ?? null) : null,
    frames: devices.frames[device].lines(),
  };
}

function transportOf(bench: BenchConfig, device: DeviceHealth['device']): ScaleTransportConfig {
  if (device === 'scanner') return bench.scanner?.transport ?? { kind: 'simulated' };
  return bench[device].transport;
}

function protocolName(protocol: BenchConfig['scale']['protocol']): string {
  return typeof protocol === 'string' ? protocol : protocol.pattern;
}

function placeOf(transport: ScaleTransportConfig): string {
  switch (transport.kind) {
    case 'simulated':
      return '';
    case 'tcp':
      return `${transport.host}:${String(transport.port)}`;
    case 'serial':
      return `${transport.path}, ${String(transport.baud)}`;
    case 'serial-adapter':
      return `${Object.values(transport.adapter).join(' ')}, ${String(transport.baud)}`;
    case 'device-file':
      return transport.path;
    case 'hid':
      return `USB ${Object.values(transport.device).join(' ')}`.trim();
    case 'hid-on-screen':
      return '';
  }
}
