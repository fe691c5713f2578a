import { levelOfPiece, openMicrophone, type Microphone } from '../audio/microphone.ts';

/** How long one take lasts: a phrase of three words, and the breath before it. */
const TAKE_SECONDS = 2.6;

/** Records takes of one length from this computer's microphone. */
export class Recording {
  private microphone: Microphone | null = null;
  private pieces: ArrayBuffer[] | null = null;
  private wanted = 0;
  private done: (pcm: ArrayBuffer) => void = () => undefined;

  constructor(
    private readonly level: (db: number) => void,
    private readonly lost: () => void,
    private readonly open: typeof openMicrophone = openMicrophone,
  ) {}

  /** @throws MicrophoneError which says what forbids it */
  async start(): Promise<void> {
    this.microphone ??= await this.open({ piece: (pcm) => this.piece(pcm), lost: () => this.lose() });
  }

  take(seconds = TAKE_SECONDS): Promise<ArrayBuffer> {
    this.pieces = [];
    this.wanted = Math.ceil((seconds * 16_000) / 1024);
    return new Promise((resolve) => (this.done = resolve));
  }

  stop(): void {
    this.microphone?.close();
    this.microphone = null;
    this.pieces = null;
  }

  private lose(): void {
    this.stop();
    this.lost();
  }

  private piece(pcm: ArrayBuffer): void {
    this.level(levelOfPiece(pcm));
    if (this.pieces === null) return;
    this.pieces.push(pcm);
    if (this.pieces.length < this.wanted) return;
    const all = new Uint8Array(this.pieces.reduce((sum, piece) => sum + piece.byteLength, 0));
    let at = 0;
    for (const piece of this.pieces) {
      all.set(new Uint8Array(piece), at);
      at += piece.byteLength;
    }
    this.pieces = null;
    this.done(all.buffer);
  }
}
