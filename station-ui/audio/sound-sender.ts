import type { SoundAck, SoundPiece } from '#shared/wire/voice.ts';

/** About a second of sound may wait for its acknowledgement; a link that is slower loses the rest. */
const MOST_WAITING = 16;

/** Sends pieces of sound in order, never more than a second ahead of what the server has taken. */
export class SoundSender {
  private n = 0;
  private waiting = 0;
  /** pieces left out because the link was too slow; the server sees the gap and counts it too */
  dropped = 0;

  constructor(private readonly send: (piece: SoundPiece) => Promise<SoundAck | null>) {}

  piece(pcm: ArrayBuffer, rate: number): void {
    const n = this.n++;
    if (this.waiting >= MOST_WAITING) {
      this.dropped += 1;
      return;
    }
    this.waiting += 1;
    void this.send({ n, rate, pcm }).then(() => {
      this.waiting -= 1;
    });
  }
}
