import { BenchClient } from './bench-client.ts';
import type { SoundAck, VoiceView } from '#shared/wire/voice.ts';

/** A screen without a screen whose microphone is on: it sends sound to the bench's ear and sees what was heard. */
export class VoiceScreen {
  readonly client: BenchClient;
  voice: VoiceView | null = null;
  private n = 0;

  constructor(url: string, bench = 'bench-1') {
    this.client = new BenchClient(url, bench);
    this.client.socket.on('voice', (view) => (this.voice = view));
  }

  async on(): Promise<void> {
    await this.client.until(({ view }) => view !== null, 'the view');
    this.client.socket.emit('ear', 'on');
    await this.client.until(() => this.voice?.state === 'listening', 'the ear', 20_000);
  }

  /** Sends sound about as fast as the server takes it: a little more than it could have been spoken in. */
  async say(pcm: Int16Array): Promise<void> {
    for (let at = 0; at < pcm.length; at += 1024) {
      const piece = { n: this.n++, rate: 16_000, pcm: pcm.slice(at, at + 1024).buffer };
      for (;;) {
        const ack = await new Promise<SoundAck>((done) => this.client.socket.emit('sound', piece, done));
        if (ack.ok) break;
        if (ack.why !== 'too-fast') throw new Error(ack.why);
        await new Promise((soon) => setTimeout(soon, 50));
      }
      await new Promise((soon) => setTimeout(soon, 15));
    }
  }
}
