import { readdirSync, statSync } from 'node:fs';
import { statfs } from 'node:fs/promises';
import { join } from 'node:path';
import type { Server } from 'socket.io';
import type { Metrics } from './metrics.ts';
import type { Listener } from '#drivers/voice/listener.ts';
import { everyDevice, type LookedAt } from '#server/devices/every-device.ts';
import type { Station } from '#server/runs/station.ts';
import type { Store } from '#server/store/open.ts';
import { countUnpacked } from '#server/store/orders.ts';
import { LABEL_STATES } from '#shared/wire/label.ts';

export interface CollectParts {
  readonly metrics: Metrics;
  readonly store: Store;
  readonly stations: ReadonlyMap<string, Station>;
  readonly listener: Pick<Listener, 'state'>;
  readonly io: Server;
  /** once every bench's devices are open */
  readonly ready: () => boolean;
  /** the data folder */
  readonly folder: string;
  readonly version: string;
}

const NAMESPACES = ['/bench', '/office', '/scale'] as const;
/** Only labels that somebody still waits for: of those that are settled there are ever more. */
const OPEN_LABELS = LABEL_STATES.filter((state) => state !== 'answered' && state !== 'withdrawn');

/** Makes what stands somewhere else already a figure: devices, runs, sockets, labels, the store's size. */
export function collectFrom({ metrics, store, stations, listener, io, ready, folder, version }: CollectParts): void {
  metrics.gauge('info', 'The version that runs', ['version'], (set) => set({ version }, 1));
  metrics.gauge('runs', 'Benches by the step of their run', ['bench', 'step'], (set) => {
    for (const [bench, { run }] of stations) set({ bench, step: run.state.step.at }, 1);
  });
  metrics.gauge('orders', 'Orders that are not packed, by their state', ['state'], async (set) => {
    for (const [state, count] of Object.entries(await countUnpacked(store))) set({ state }, count);
  });
  collectDevices(metrics, () => (ready() ? [...stations] : []));
  metrics.gauge('sockets', 'Screens and other clients that are linked', ['namespace'], (set) => {
    for (const namespace of NAMESPACES) set({ namespace: namespace.slice(1) }, io.of(namespace).sockets.size);
  });
  metrics.gauge('label_requests', 'Labels that were asked for and are not settled', ['state'], async (set) => {
    const rows = await store
      .selectFrom('label_request')
      .select((select) => ['state', select.fn.countAll<number>().as('count')])
      .where('state', 'in', OPEN_LABELS)
      .groupBy('state')
      .execute();
    const found = new Map(rows.map(({ state, count }) => [state, count]));
    for (const state of OPEN_LABELS) set({ state }, found.get(state) ?? 0);
  });
  metrics.gauge('recogniser_state', 'What hears commands: 1 for its state', ['state'], (set) => {
    set({ state: listener.state }, 1);
  });
  metrics.gauge('store_bytes', 'Size of the data folder’s store', ['file'], (set) => {
    for (const file of readdirSync(folder)) {
      if (file.startsWith('benchfold.db')) set({ file }, statSync(join(folder, file)).size);
    }
  });
  metrics.gauge('disk_free_bytes', 'What is free where the data folder lies', [], async (set) => {
    const { bavail, bsize } = await statfs(folder);
    set({}, bavail * bsize);
  });
}

function collectDevices(metrics: Metrics, stations: () => readonly (readonly [string, Station])[]): void {
  const each = (look: (bench: string, device: LookedAt) => void): void => {
    for (const [bench, station] of stations()) for (const device of everyDevice(station)) look(bench, device);
  };
  metrics.gauge('device_state', 'Devices: 1 for the state that each is in', ['bench', 'device', 'state'], (set) => {
    each((bench, { called: device, health: { state } }) => set({ bench, device, state }, 1));
  });
  metrics.gauge(
    'device_frames',
    'Frames since the device was opened, good ones and discarded ones',
    ['bench', 'device', 'outcome'],
    (set) => {
      each((bench, { called: device, trace }) => {
        set({ bench, device, outcome: 'good' }, trace?.good ?? 0);
        set({ bench, device, outcome: 'discarded' }, trace?.discarded ?? 0);
      });
    },
  );
  metrics.gauge('device_connections', 'How often each device was connected', ['bench', 'device'], (set) => {
    each((bench, { called: device, trace }) => set({ bench, device }, trace?.connections ?? 0));
  });
}
