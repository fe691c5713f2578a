/** Runs in the browser's sound thread: turns what the microphone gives into pieces of 16 bit samples. */

declare abstract class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** 64 ms at 16,000 samples a second. */
const PIECE = 1024;

class MicrophonePieces extends AudioWorkletProcessor {
  private piece = new Int16Array(PIECE);
  private filled = 0;

  process(inputs: Float32Array[][]): boolean {
    const channel = inputs[0]?.[0];
    if (channel === undefined) return true;
    for (const sample of channel) {
      this.piece[this.filled++] = Math.max(-32_768, Math.min(32_767, Math.round(sample * 32_768)));
      if (this.filled < PIECE) continue;
      this.port.postMessage(this.piece.buffer, [this.piece.buffer]);
      this.piece = new Int16Array(PIECE);
      this.filled = 0;
    }
    return true;
  }
}

registerProcessor('microphone-pieces', MicrophonePieces);
