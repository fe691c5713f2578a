import { io } from 'socket.io-client';
import type { Socket } from 'socket.io-client';
import type { PhotoSent } from '#shared/wire/proof.ts';
import type { SpeechChange } from '#shared/wire/speech.ts';
import type { EarAsk, SoundAck, SoundPiece } from '#shared/wire/voice.ts';
import type {
  Ack,
  BenchInput,
  BenchToServer,
  CodeAnswer,
  ServerToBench,
  SimulatorAction,
} from '#shared/wire/events.ts';

/** How long an acknowledgement may take before the same input is sent again. */
const ACK_MS = 4000;
/** The same for a photo, which is some hundred thousand bytes. */
const PHOTO_ACK_MS = 15_000;

export interface LinkHandlers extends ServerToBench {
  readonly up: () => void;
  readonly down: () => void;
  /** the server does not know this bench */
  readonly refused: (message: string) => void;
}

export interface BenchLink {
  /** null when no acknowledgement came in time */
  readonly input: (input: BenchInput) => Promise<Ack | null>;
  readonly simulate: (action: SimulatorAction) => Promise<Ack | null>;
  /** whether the open work knows a code; null while the link is down, or when no answer came in time */
  readonly code: (text: string) => Promise<CodeAnswer | null>;
  /** what this screen asks of the bench's ear; nothing is asked while the link is down */
  readonly ear: (ask: EarAsk, milliseconds?: number) => void;
  /** null when no acknowledgement came in time */
  readonly speech: (change: SpeechChange) => Promise<Ack | null>;
  /** null when no acknowledgement came in time */
  readonly sound: (piece: SoundPiece) => Promise<SoundAck | null>;
  /** null when no acknowledgement came in time */
  readonly photo?: (photo: PhotoSent) => Promise<Ack | null>;
  /** connects anew, as somebody else by now */
  readonly again: () => void;
  readonly close: () => void;
}

/** The socket to the server: namespace /bench, one bench, back by itself when it was lost. */
export function linkTo(bench: string, lastSeq: () => number | undefined, handlers: LinkHandlers): BenchLink {
  const socket: Socket<ServerToBench, BenchToServer> = io('/bench', {
    auth: (give) => {
      const seq = lastSeq();
      give(seq === undefined ? { bench } : { bench, lastSeq: seq });
    },
    reconnectionDelay: 250,
    reconnectionDelayMax: 1500,
    timeout: 3000,
    transports: ['websocket', 'polling'],
  });
  socket.on('connect', handlers.up);
  socket.on('disconnect', handlers.down);
  socket.on('connect_error', (error) => {
    handlers.down();
    const at = 'data' in error ? (error.data as { readonly at?: unknown } | undefined)?.at : undefined;
    if (error.message === 'elsewhere' && typeof at === 'string') {
      // Another server of the shop has this bench.
      location.assign(`${at}${location.pathname}`);
      return;
    }
    if (!socket.active) {
      // The server refused this bench; it may be added to the shop while the page stays open.
      handlers.refused(error.message);
      setTimeout(() => socket.connect(), 3000);
    }
  });
  socket.on('view', handlers.view);
  socket.on('scale', handlers.scale);
  socket.on('devices', handlers.devices);
  socket.on('simulator', handlers.simulator);
  socket.on('voice', handlers.voice);
  socket.on('level', handlers.level);
  socket.on('pages', handlers.pages);
  socket.on('servers', handlers.servers);
  socket.on('door', handlers.door);
  socket.on('called', handlers.called);
  // A pulled network cable closes no socket; the browser often knows first.
  const offline = (): void => {
    handlers.down();
    socket.disconnect();
  };
  const online = (): void => {
    socket.connect();
  };
  addEventListener('offline', offline);
  addEventListener('online', online);

  return {
    input: (input) =>
      new Promise((resolve) => {
        socket.timeout(ACK_MS).emit('input', input, (late: Error | null, ack: Ack) => {
          resolve(late === null ? ack : null);
        });
      }),
    simulate: (action) =>
      new Promise((resolve) => {
        socket.timeout(ACK_MS).emit('simulate', action, (late: Error | null, ack: Ack) => {
          resolve(late === null ? ack : null);
        });
      }),
    code: (text) =>
      new Promise((resolve) => {
        if (!socket.connected) {
          resolve(null);
          return;
        }
        socket.timeout(ACK_MS).emit('code', text, (late: Error | null, answer: CodeAnswer) => {
          resolve(late === null ? answer : null);
        });
      }),
    ear: (ask, milliseconds) => {
      if (!socket.connected) return;
      if (milliseconds === undefined) socket.emit('ear', ask);
      else socket.emit('ear', ask, milliseconds);
    },
    speech: (change) =>
      new Promise((resolve) => {
        socket.timeout(ACK_MS).emit('speech', change, (late: Error | null, ack: Ack) => {
          resolve(late === null ? ack : null);
        });
      }),
    sound: (piece) =>
      new Promise((resolve) => {
        // Sound that waits for a lost link would come as a burst of the past.
        if (!socket.connected) {
          resolve(null);
          return;
        }
        socket.timeout(ACK_MS).emit('sound', piece, (late: Error | null, ack: SoundAck) => {
          resolve(late === null ? ack : null);
        });
      }),
    photo: (photo) =>
      new Promise((resolve) => {
        if (!socket.connected) {
          resolve(null);
          return;
        }
        socket.timeout(PHOTO_ACK_MS).emit('photo', photo, (late: Error | null, ack: Ack) => {
          resolve(late === null ? ack : null);
        });
      }),
    again: () => {
      socket.disconnect();
      socket.connect();
    },
    close: () => {
      removeEventListener('offline', offline);
      removeEventListener('online', online);
      socket.disconnect();
    },
  };
}
