import type { Logger } from 'pino';
import type { Server, Socket } from 'socket.io';
import { z } from 'zod';
import type { BenchDoor } from '#server/access/doors.ts';
import type { Listener } from '#drivers/voice/listener.ts';
import type { EnrolmentBook } from '#server/voice/enrolment-book.ts';
import type { Station } from '#server/runs/station.ts';
import { BenchVoice } from '#server/voice/bench-voice.ts';
import { ServerMicrophone } from '#server/voice/server-microphone.ts';
import { enteringOf } from '#shared/run/entering.ts';
import { languageOf } from '#shared/run/view/bench-view.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { BenchToServer, ServerToBench } from '#shared/wire/events.ts';
import { EAR_ASKS, type EarAsk, type SoundAck } from '#shared/wire/voice.ts';

export interface VoiceChannelParts {
  readonly io: Server;
  readonly station: Station;
  readonly shops: ShopHolder;
  readonly listener: Listener;
  readonly enrolments: EnrolmentBook;
  readonly log: Logger;
  readonly doors: Pick<BenchDoor, 'isOpen'>;
}

export const earAsk = z.enum(EAR_ASKS);
const WAKE_SECONDS = 10;

/** The voice of one bench on its sockets. */
export class VoiceChannel {
  readonly #voice: BenchVoice;
  /** null where the screen's own is used */
  readonly #here: ServerMicrophone | null;

  constructor({ io, station, shops, listener, enrolments, log, doors }: VoiceChannelParts) {
    const { id, voice } = station.bench;
    const room = io.of('/bench').local.to(id);
    this.#voice = new BenchVoice({
      name: id,
      listener,
      settings: {
        listening: voice?.listening ?? 'always',
        wakeSeconds: voice?.wakeSeconds ?? WAKE_SECONDS,
        talkKeys: voice?.talkKeys ?? [],
      },
      now: () => Date.now(),
      target: {
        now: () => {
          const { seq, commands } = station;
          const { shownRun } = station;
          return {
            seq,
            language: languageOf(shownRun, shops.current),
            commands,
            digits: enteringOf(shownRun) !== null,
            enrolment: enrolments.of(shownRun.packer, id),
          };
        },
        digits: async (digits) =>
          doors.isOpen(id) && (await station.apply({ type: 'digits', digits, by: 'voice' })).accepted,
        command: async (command) =>
          doors.isOpen(id) && (await station.apply({ type: 'command', command, by: 'voice' })).accepted,
      },
      onView: (view) => room.emit('voice', view),
      onError: (error) => log.error({ error, bench: id }, 'what was said could not be acted on'),
    });
    this.#here = ServerMicrophone.of({
      config: voice?.microphone ?? { kind: 'screen' },
      voice: this.#voice,
      onLevel: (db) => io.of('/bench').local.to(id).volatile.emit('level', db),
      onTrouble: (message) => log.warn({ bench: id }, message),
    });
    // Nobody has to walk up to a screen first.
    this.#here?.on();
  }

  stop(): void {
    this.#here?.off();
  }

  /** The run has moved. */
  follow(): void {
    this.#voice.follow();
  }

  /** Somebody is signed in at a screen. */
  welcome(socket: Socket<BenchToServer, ServerToBench>): void {
    socket.emit('voice', this.#voice.view());
  }

  /** Nobody is signed in at a screen any more, or it is away: it neither speaks nor listens. */
  gone(socket: Socket<BenchToServer, ServerToBench>): void {
    this.#voice.silent(socket.id);
    this.#voice.letGo(socket.id);
    this.#voice.off(socket.id);
  }

  /** A screen is connected. */
  connected(socket: Socket<BenchToServer, ServerToBench>): void {
    socket.on('ear', (raw: unknown, milliseconds: unknown) => {
      const ask = earAsk.safeParse(raw);
      if (ask.success) this.#ask(socket.id, ask.data, typeof milliseconds === 'number' ? milliseconds : null);
    });
    socket.on('sound', (raw: unknown, ack: unknown) => {
      const answer = this.#voice.sound(socket.id, raw);
      if (typeof ack === 'function') (ack as (ack: SoundAck) => void)(answer);
    });
    socket.on('disconnect', () => this.gone(socket));
  }

  #ask(screen: string, ask: EarAsk, milliseconds: number | null): void {
    const voice = this.#voice;
    switch (ask) {
      case 'on':
        if (this.#here === null) voice.on(screen);
        else this.#here.on();
        return;
      case 'off':
        if (this.#here === null) voice.off(screen);
        else this.#here.off();
        return;
      case 'cut':
        voice.cut(screen);
        return;
      case 'hold':
        voice.hold(screen);
        return;
      case 'let-go':
        voice.letGo(screen);
        return;
      case 'speaking':
        voice.speaking(screen, milliseconds);
        return;
      case 'silent':
        voice.silent(screen);
        return;
      default:
        voice.mode(ask);
    }
  }
}
