import type { EarAsk, SoundAck, SoundPiece } from '#shared/wire/voice.ts';
import { MicrophoneError, levelOfPiece, openMicrophone } from '../audio/microphone.ts';
import type { Microphone } from '../audio/microphone.ts';
import type { MicrophoneTrouble } from '../audio/microphone-trouble.ts';
import { SoundSender } from '../audio/sound-sender.ts';

export interface ListeningState {
  /** this screen's own microphone is on */
  readonly on: boolean;
  /** push-to-talk is held */
  readonly held: boolean;
  readonly trouble: MicrophoneTrouble | null;
  /** pieces of sound left out because the link was too slow */
  readonly dropped: number;
}

export const NOT_LISTENING: ListeningState = { on: false, held: false, trouble: null, dropped: 0 };

export interface ListeningParts {
  readonly open?: typeof openMicrophone;
  readonly ear: (ask: EarAsk) => void;
  readonly sound: (piece: SoundPiece) => Promise<SoundAck | null>;
  readonly changed: (state: ListeningState) => void;
  /** dB below full scale, for the meter */
  readonly level: (db: number) => void;
}

/** Three seconds of pieces: a microphone gives sound also of a silent room. */
const ZEROS_TOLD = 47;

/** This screen's microphone: off until it is switched on, and the reason when it cannot be. */
export class Listening {
  private state = NOT_LISTENING;
  private microphone: Microphone | null = null;
  private opening = 0;
  private sender: SoundSender;
  /** sound that earlier links lost */
  private lost = 0;
  /** pieces in a row that were nothing but zeros */
  private zeros = 0;

  constructor(private readonly parts: ListeningParts) {
    this.sender = new SoundSender(parts.sound);
  }

  async turn(on: boolean): Promise<void> {
    const turn = ++this.opening;
    this.close();
    if (!on) {
      this.set({ on: false, trouble: null });
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
      this.zeros = 0;
      this.renew();
      this.set({ on: true, trouble: null });
      this.parts.ear('on');
    } catch (error) {
      if (turn === this.opening) this.fail(error instanceof MicrophoneError ? error.code : 'in-use');
    }
  }

  /** The link is back: the server has forgotten whose microphone was on, and that a key is held. */
  linked(): void {
    if (this.microphone !== null) {
      this.renew();
      this.parts.ear('on');
    }
    if (this.state.held) this.parts.ear('hold');
  }

  /** The talk key or button is held, or let go. */
  hold(held: boolean): void {
    if (held === this.state.held) return;
    this.set({ held });
    this.parts.ear(held ? 'hold' : 'let-go');
  }

  private piece(pcm: ArrayBuffer): void {
    if (this.microphone === null) return;
    const level = levelOfPiece(pcm);
    this.parts.level(level);
    this.zeros = level <= -100 ? this.zeros + 1 : 0;
    const trouble = this.zeros >= ZEROS_TOLD ? 'only-zeros' : null;
    if (trouble !== this.state.trouble) this.set({ trouble });
    this.sender.piece(pcm, this.microphone.rate);
    const dropped = this.lost + this.sender.dropped;
    if (dropped !== this.state.dropped) this.set({ dropped });
  }

  private renew(): void {
    this.lost += this.sender.dropped;
    this.sender = new SoundSender(this.parts.sound);
  }

  private fail(trouble: MicrophoneTrouble): void {
    this.close();
    this.set({ on: false, trouble });
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
