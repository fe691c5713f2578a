import type { Logger } from 'pino';
import type { Server, Socket } from 'socket.io';
import { z } from 'zod';
import { HopelessInputs } from './hopeless-inputs.ts';
import { offersOf } from './simulator-offers.ts';
import { photoSent } from './photo-sent.ts';
import { simulatorAction } from './simulator-action.ts';
import { simulate, SimulationRefused } from './simulate.ts';
import { VoiceChannel } from './voice-channel.ts';
import type { Clock } from '#server/clock.ts';
import { keepPhoto } from '#server/proof/keep-photo.ts';
import type { PhotoFiles } from '#server/proof/photo-files.ts';
import type { Doors } from '#server/access/doors.ts';
import type { Listener } from '#drivers/voice/listener.ts';
import type { Station } from '#server/runs/station.ts';
import type { EnrolmentBook } from '#server/voice/enrolment-book.ts';
import type { Store } from '#server/store/open.ts';
import { saveSweepMemory } from '#server/store/sweeps.ts';
import { COMMANDS, type Command } from '#shared/run/commands.ts';
import { MOST_DIGITS } from '#shared/run/entering.ts';
import { SET_ASIDE_REASONS } from '#shared/run/types.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { FASTEST, QUIETEST, SLOWEST, SPEECH_FORMS, type SpeechChange } from '#shared/wire/speech.ts';
import type { BenchInput, BenchToServer, ServerToBench, WireError } from '#shared/wire/events.ts';

const inputId = z.string().min(8).max(100);
export const scanned = z.string().min(1).max(500);
/** the order that was on the screen */
const onScreen = z.string().min(1).max(200).exactOptional();
export const benchInput: z.ZodType<BenchInput> = z.discriminatedUnion('type', [
  z.strictObject({
    id: inputId,
    type: z.literal('command'),
    command: z.enum(COMMANDS),
    by: z.enum(['touch', 'key', 'voice']),
    reason: z.enum(SET_ASIDE_REASONS).exactOptional(),
    order: onScreen,
  }),
  z.strictObject({
    id: inputId,
    type: z.literal('scan'),
    text: scanned,
    otherwise: scanned.exactOptional(),
    by: z.enum(['scan', 'key', 'camera']),
    ago: z.number().min(0).exactOptional(),
  }),
  z.strictObject({
    id: inputId,
    type: z.literal('digits'),
    digits: z.string().regex(/^\d+$/).max(MOST_DIGITS),
    by: z.enum(['touch', 'key']),
    order: onScreen,
  }),
  z.strictObject({ id: inputId, type: z.literal('language'), language: z.enum(LANGUAGES) }),
  z.strictObject({ id: inputId, type: z.literal('choose'), option: z.string().min(1).max(100) }),
]);

export const speechChange: z.ZodType<SpeechChange> = z.strictObject({
  wordsPerMinute: z.int().min(SLOWEST).max(FASTEST).exactOptional(),
  volume: z.int().min(QUIETEST).max(100).exactOptional(),
  form: z.enum(SPEECH_FORMS).exactOptional(),
  on: z.boolean().exactOptional(),
});

export interface BenchNamespaceParts {
  readonly photos: PhotoFiles;
  readonly clock: Clock;
  readonly io: Server;
  readonly stations: ReadonlyMap<string, Station>;
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly listener: Listener;
  readonly enrolments: EnrolmentBook;
  readonly log: Logger;
  readonly doors: Pick<Doors, 'follow' | 'isOpen' | 'locked'>;
  /** the address of the server that has a bench which is not here; null where none has */
  readonly elsewhere?: (bench: string) => Promise<string | null>;
  /** where the other servers of the shop have their pages */
  readonly servers?: () => readonly string[];
  /** which build of the bench's page is served now */
  readonly pages: () => string | null;
}

type BenchSocket = Socket<BenchToServer, ServerToBench>;

/** At most this many live readings a second go to a screen. */
const LIVE_EVERY_MS = 100;

export interface ServedBenches {
  /** A bench is served here from now on. */
  readonly attach: (station: Station) => void;
  /** It is not any more: its screens ask anew where it is. */
  readonly detach: (bench: string) => void;
  /** Lets go of microphones at the server. */
  readonly stop: () => void;
}

/** Connects bench screens: each joins its bench's room, hears its views, and sends inputs that are acknowledged once stored. */
export function serveBenches({
  io,
  stations,
  store,
  shops,
  listener,
  enrolments,
  log,
  doors,
  pages,
  photos,
  clock,
  elsewhere = () => Promise.resolve(null),
  servers = () => [],
}: BenchNamespaceParts): ServedBenches {
  const namespace = io.of('/bench');
  const hopeless = new HopelessInputs(() => saveSweepMemory(store, 'write-trial', { at: clock.now(), heldAt: null }));
  const channels = new Map<string, VoiceChannel>();
  const attach = (station: Station): void => {
    const { id } = station.bench;
    // A bench's screens are where its station is.
    const room = () => namespace.local.to(id);
    const channel = new VoiceChannel({ io, station, shops, listener, enrolments, log, doors });
    channels.set(id, channel);
    let lastLive = 0;
    station.listen({
      onView: (view) => {
        room().emit('view', view);
        channel.follow();
      },
      onDevices: (health) => room().emit('devices', health),
      onScale: (live) => {
        const now = Date.now();
        if (live.reading !== null && now - lastLive < LIVE_EVERY_MS - 20) return;
        lastLive = now;
        room().emit('scale', live);
      },
      onSurroundings: () => {
        if (!station.isSimulated) return;
        offersOf(station, store, shops.current, doors.locked)
          .then((offers) => room().emit('simulator', offers))
          .catch((error: unknown) => log.error({ error }, 'the simulator tray could not be filled'));
      },
    });
  };
  for (const station of stations.values()) attach(station);
  const detach = (bench: string): void => {
    channels.get(bench)?.stop();
    channels.delete(bench);
    namespace.local.in(bench).disconnectSockets(true);
  };
  namespace.use((socket, next) => {
    const bench: unknown = socket.handshake.auth['bench'];
    if (typeof bench !== 'string' || stations.has(bench)) {
      next(typeof bench === 'string' ? undefined : new Error('unknown-bench'));
      return;
    }
    elsewhere(bench).then(
      (at) => next(at === null ? new Error('unknown-bench') : Object.assign(new Error('elsewhere'), { data: { at } })),
      (error: unknown) => {
        log.error({ error }, 'where a bench is could not be looked up');
        next(new Error('unknown-bench'));
      },
    );
  });
  namespace.on('connection', (socket: BenchSocket) => {
    const station = stations.get(String(socket.handshake.auth['bench']));
    if (station === undefined) return;
    socket.on('disconnect', station.screenCame());
    socket.emit('called', station.bench.name);
    const version = pages();
    if (version !== null) socket.emit('pages', version);
    socket.emit('servers', servers());
    const channel = channels.get(station.bench.id);
    channel?.connected(socket);
    doors.follow(socket, station.bench.id, {
      opened: () => {
        socket.emit('door', true);
        void socket.join(station.bench.id);
        channel?.welcome(socket);
        welcome(socket, station, store, shops, doors.locked).catch((error: unknown) =>
          log.error({ error }, 'a screen could not be filled'),
        );
      },
      shut: () => {
        void socket.leave(station.bench.id);
        channel?.gone(socket);
        socket.emit('door', false);
      },
    });
    socket.on('input', (raw, ack) => {
      void answer(ack, log, async () => {
        const input = check(benchInput, raw);
        try {
          const applied = await takeInput(station, input, socket.id);
          return { seq: applied?.seq ?? station.seq };
        } catch (error) {
          if (!(await hopeless.failed(input.id, error))) throw error;
          log.error(
            { error, bench: station.bench.id, type: input.type },
            'an input that can never be stored is refused',
          );
          throw new BadRequest('The server can do nothing with this. Nothing was changed.');
        }
      });
    });
    socket.on('code', (raw, ack) => {
      void answer(ack, log, async () => ({ known: await station.knows(check(scanned, raw)) }));
    });
    socket.on('speech', (raw, ack) => {
      void answer(ack, log, async () => {
        await station.changeSpeech(check(speechChange, raw));
        return { seq: station.run.seq };
      });
    });
    socket.on('photo', (raw, ack) => {
      void answer(ack, log, async () => {
        const here = station.run.state;
        const kept = await keepPhoto({ store, files: photos, clock }, station.bench.id, here, check(photoSent, raw));
        if (kept === 'unknown-run') throw new BadRequest('This run is not of this bench.');
        return { seq: station.seq };
      });
    });
    socket.on('simulate', (raw, ack) => {
      void answer(ack, log, async () => {
        await simulate(station, shops.current, check(simulatorAction, raw));
        return { seq: station.seq };
      });
    });
  });
  return {
    attach,
    detach,
    stop: () => {
      for (const channel of channels.values()) channel.stop();
    },
  };
}

async function welcome(
  socket: BenchSocket,
  station: Station,
  store: Store,
  shops: ShopHolder,
  locked: boolean,
): Promise<void> {
  socket.emit('view', await station.view());
  socket.emit('devices', station.devices.health());
  socket.emit('scale', station.devices.live());
  if (station.isSimulated) socket.emit('simulator', await offersOf(station, store, shops.current, locked));
}

/** What is begun beside packing is begun by whoever stands there. */
const BY_WHOM: ReadonlySet<Command> = new Set<Command>(['practice', 'fold-ahead', 'aside-list']);

async function takeInput(station: Station, input: BenchInput, screen: string) {
  if (input.type === 'scan') {
    const { text, by, id, otherwise, ago = 0 } = input;
    return station.scan({ text, by, reader: `${by} ${screen}`, ago, id, otherwise });
  }
  if (input.type === 'language') {
    return station.apply({ type: 'language', language: input.language, by: 'touch' }, input.id);
  }
  if (input.type === 'choose') return station.choose(input.option, input.id);
  const { id, order } = input;
  if (input.type === 'digits') return station.apply({ type: 'digits', digits: input.digits, by: input.by }, id, order);
  const { command, by, reason } = input;
  if (BY_WHOM.has(command)) await station.scansTaken();
  const plain = { type: 'command', command, by } as const;
  return station.apply(reason === undefined ? plain : { ...plain, reason }, id, order);
}

class BadRequest extends Error {}

function check<Value>(schema: z.ZodType<Value>, raw: unknown): Value {
  const result = schema.safeParse(raw);
  if (result.success) return result.data;
  throw new BadRequest(z.prettifyError(result.error));
}

async function answer(ack: unknown, log: Logger, work: () => Promise<object>): Promise<void> {
  // A peer that sends no acknowledgement function has no use for an answer.
  const reply = typeof ack === 'function' ? (ack as (answer: object) => void) : () => undefined;
  try {
    reply({ ok: true, ...(await work()) });
  } catch (error) {
    const { code, message } = wireError(error);
    if (code === 'store-failed') log.error({ error }, 'an input could not be stored');
    reply({ ok: false, error: code, message });
  }
}

function wireError(error: unknown): { readonly code: WireError; readonly message: string } {
  if (error instanceof BadRequest) return { code: 'bad-request', message: error.message };
  if (error instanceof SimulationRefused) return { code: error.code, message: error.message };
  return { code: 'store-failed', message: 'The server could not store this. Nothing was changed; try again.' };
}
