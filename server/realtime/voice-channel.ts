import type { Logger } from 'pino';
import type { Server, Socket } from 'socket.io';
import { z } from 'zod';
import type { Listener } from '#drivers/voice/listener.ts';
import type { Station } from '#server/runs/station.ts';
import { BenchVoice } from '#server/voice/bench-voice.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import { languageOf } from '#shared/run/view/bench-view.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { BenchToServer, ServerToBench } from '#shared/wire/events.ts';
import type { SoundAck } from '#shared/wire/voice.ts';

export interface VoiceChannelParts {
  readonly io: Server;
  readonly station: Station;
  readonly shops: ShopHolder;
  readonly listener: Listener;
  readonly log: Logger;
}

/** What a screen may ask of its bench's ear. */
const asked = z.enum(['on', 'off', 'cut', 'speaking', 'silent']);

/** The voice of one bench on its sockets. */
export class VoiceChannel {
  readonly #voice: BenchVoice;

  constructor({ io, station, shops, listener, log }: VoiceChannelParts) {
    const { id } = station.bench;
    this.#voice = new BenchVoice({
      name: id,
      listener,
      now: () => Date.now(),
      target: {
        now: () => {
          const { state, seq } = station.run;
          return { seq, language: languageOf(state, shops.current), commands: commandsFor(state) };
        },
        command: async (command) => (await station.apply({ type: 'command', command, by: 'voice' })).accepted,
      },
      onView: (view) => io.of('/bench').to(id).emit('voice', view),
      onError: (error) => log.error({ error, bench: id }, 'what was said could not be acted on'),
    });
  }

  /** The run has moved. */
  follow(): void {
    this.#voice.follow();
  }

  /** A screen is connected. */
  welcome(socket: Socket<BenchToServer, ServerToBench>): void {
    socket.emit('voice', this.#voice.view());
    socket.on('ear', (raw: unknown) => {
      const ask = asked.safeParse(raw);
      if (!ask.success) return;
      if (ask.data === 'on') this.#voice.on(socket.id);
      else if (ask.data === 'off') this.#voice.off(socket.id);
      else if (ask.data === 'cut') this.#voice.cut(socket.id);
      else this.#voice.speaking(socket.id, ask.data === 'speaking');
    });
    socket.on('sound', (raw: unknown, ack: unknown) => {
      const answer = this.#voice.sound(socket.id, raw);
      if (typeof ack === 'function') (ack as (ack: SoundAck) => void)(answer);
    });
    socket.on('disconnect', () => this.#voice.off(socket.id));
  }
}
