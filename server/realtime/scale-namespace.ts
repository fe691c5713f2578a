import type { Server, Socket } from 'socket.io';
import type { RelayedDevice } from '#drivers/transport/screen-relay.ts';
import type { Station } from '#server/runs/station.ts';
import {
  LONGEST_REPORT,
  MOST_CONTROLS,
  type ScaleOffer,
  type ScaleToScreen,
  type ScreenToScale,
} from '#shared/wire/screen-scale.ts';

/** Takes the reports of scales that hang on the benches' own screens. */
export function serveScreenScales(io: Server, stations: ReadonlyMap<string, Station>): void {
  const namespace = io.of('/scale');
  namespace.use((socket, next) => {
    const bench: unknown = socket.handshake.auth['bench'];
    next(typeof bench === 'string' && stations.has(bench) ? undefined : new Error('unknown-bench'));
  });
  namespace.on('connection', (socket: Socket<ScreenToScale, ScaleToScreen>) => {
    const station = stations.get(String(socket.handshake.auth['bench']));
    const relay = station?.bench.scale.transport.kind === 'hid-on-screen' ? station.screenScale : null;
    let device: RelayedDevice | null = null;
    const gone = (message: string): void => {
      device?.gone(message);
      device = null;
    };
    socket.on('opened', (ack: unknown) => {
      device ??= relay?.offer() ?? null;
      const offer: ScaleOffer = relay === null ? 'not-here' : device === null ? 'held' : 'taken';
      if (typeof ack === 'function') (ack as (offer: ScaleOffer) => void)(offer);
    });
    socket.on('report', (bytes: unknown) => {
      // A screen is no better than a line: what is no report goes nowhere.
      if (!(bytes instanceof Uint8Array) || bytes.length === 0 || bytes.length > LONGEST_REPORT) return;
      device?.bytes(new Uint8Array(bytes));
    });
    socket.on('controls', (usages: unknown) => {
      if (!Array.isArray(usages) || usages.length > MOST_CONTROLS) return;
      const known = usages.filter((each): each is number => Number.isSafeInteger(each));
      device?.controls(known, (usage) => socket.volatile.emit('press', usage));
    });
    socket.on('gone', () => gone('unplugged at the screen'));
    socket.on('disconnect', () => gone('the screen is away'));
  });
}
