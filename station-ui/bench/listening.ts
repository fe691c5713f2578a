import type { ListeningMode, SoundAck, SoundPiece } from '#shared/wire/voice.ts';
import { MicrophoneError, levelOfPiece, openMicrophone } from '../audio/microphone.ts';
import type { Microphone } from '../audio/microphone.ts';
import type { MicrophoneTrouble } from '../audio/microphone-trouble.ts';
import { SoundSender } from '../audio/sound-sender.ts';
import type { EarAsk } from './link.ts';

export interface ListeningState {
  readonly on: boolean;
  readonly mode: ListeningMode;
  /** push-to-talk is held */
  readonly held: boolean;
  readonly trouble: MicrophoneTrouble | null;
}

export interface ListeningParts {
  readonly open?: typeof openMicrophone;
  readonly ear: (ask: EarAsk) => void;
  readonly sound: (piece: SoundPiece) => Promise<SoundAck | null>;
  readonly changed: (state: ListeningState) => void;
  /** dB below full scale, for the meter */
  readonly level: (db: number) => void;
}

/** This screen's microphone: off until it is switched on, and the reason when it cannot be. */
export class Listening {
  private state: ListeningState = { on: false, mode: 'always', held: false, trouble: null };
  private microphone: Microphone | null = null;
  private opening = 0;
  private sender: SoundSender;

  constructor(private readonly parts: ListeningParts) {
    this.sender = new SoundSender(parts.sound);
  }

  async turn(on: boolean): Promise<void> {
    const turn = ++this.opening;
    this.close();
    if (!on) {
      this.set({ on: false, held: false, trouble: null });
      return;
    }
    try {
      const microphone = await (this.parts.open ?? openMicrophone)({
        piece: (pcm) => this.piece(pcm),
        lost: () => this.fail('unplugged'),
      });
      // Switched off again while the browser asked.
      if (turn !== this.opening) {
        microphone.close();
        return;
      }
      this.microphone = microphone;
      this.sender = new SoundSender(this.parts.sound);
      this.set({ on: true, trouble: null });
      this.parts.ear('on');
    } catch (error) {
      if (turn === this.opening) this.fail(error instanceof MicrophoneError ? error.code : 'in-use');
    }
  }

  /** The link is back: the server has forgotten whose microphone was on. */
  linked(): void {
    if (this.microphone === null) return;
    this.sender = new SoundSender(this.parts.sound);
    this.parts.ear('on');
  }

  mode(mode: ListeningMode): void {
    this.set({ mode, held: false });
    this.parts.ear('cut');
  }

  /** Held, sound goes to the server; let go, the end of the phrase is marked by silence. */
  hold(held: boolean): void {
    if (held !== this.state.held) this.set({ held });
  }

  private piece(pcm: ArrayBuffer): void {
    if (this.microphone === null) return;
    this.parts.level(levelOfPiece(pcm));
    const silent = this.state.mode === 'push-to-talk' && !this.state.held;
    // Silence, not nothing: the gate sees where the phrase ends.
    this.sender.piece(silent ? new ArrayBuffer(pcm.byteLength) : pcm, this.microphone.rate);
  }

  private fail(trouble: MicrophoneTrouble): void {
    this.close();
    this.set({ on: false, held: false, trouble });
  }

  private close(): void {
    if (this.microphone === null) return;
    this.microphone.close();
    this.microphone = null;
    this.parts.ear('off');
  }

  private set(change: Partial<ListeningState>): void {
    this.state = { ...this.state, ...change };
    this.parts.changed(this.state);
  }
}
