import type { BenchVoice } from './bench-voice.ts';
import { systemClock } from '#drivers/clock.ts';
import { alsaCapture, Capture, type CaptureProgram } from '#drivers/voice/capture.ts';
import { levelOf } from '#drivers/voice/sound.ts';
import type { MicrophoneConfig } from '#shared/shop/shop.ts';

/** Whose sound it is when it comes from no screen. */
const OWNER = 'the microphone at the server';
/** A meter that moves more often is no easier to read. */
const LEVEL_EVERY_MS = 150;

export interface ServerMicrophoneParts {
  readonly config: MicrophoneConfig;
  readonly voice: BenchVoice;
  readonly onLevel: (db: number) => void;
  readonly onTrouble: (message: string) => void;
}

/** A microphone that is plugged into the server's computer as one bench's ear. */
export class ServerMicrophone {
  readonly #capture: Capture;
  readonly #voice: BenchVoice;

  constructor(parts: ServerMicrophoneParts & { readonly capture: CaptureProgram }) {
    this.#voice = parts.voice;
    let told = 0;
    let before = '';
    this.#capture = new Capture({
      capture: parts.capture,
      clock: systemClock,
      onSound: (pcm) => {
        const now = Date.now();
        if (now - told >= LEVEL_EVERY_MS) {
          told = now;
          parts.onLevel(Math.round(levelOf(pcm)));
        }
        this.#voice.soundHere(OWNER, pcm);
      },
      onHealth: ({ state, said }) => {
        this.#voice.microphone({ at: 'server', state, said });
        const words = `the microphone at the server: ${state}${said === '' ? '' : ` (${said})`}`;
        if (state !== 'off' && state !== 'starting' && state !== 'working' && words !== before) parts.onTrouble(words);
        before = words;
      },
    });
    this.#voice.microphone({ at: 'server', state: 'off', said: '' });
  }

  /** null where the bench uses its screen's microphone */
  static of(parts: ServerMicrophoneParts): ServerMicrophone | null {
    const { config } = parts;
    if (config.kind === 'screen') return null;
    const capture = config.kind === 'alsa' ? alsaCapture(config.device) : config;
    return new ServerMicrophone({ ...parts, capture });
  }

  on(): void {
    this.#voice.on(OWNER);
    this.#capture.start();
  }

  off(): void {
    this.#capture.stop();
    this.#voice.off(OWNER);
  }
}
