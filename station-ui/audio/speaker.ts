import type { SpeechEngineState } from '#shared/wire/speech.ts';
import type { Language } from '#shared/words/language.ts';

/** One thing to say, and how. */
export interface Utterance {
  readonly text: string;
  readonly language: Language;
  readonly wordsPerMinute: number;
  /** 0 to 1 */
  readonly volume: number;
  readonly urgent: boolean;
}

/** A sound that plays; `ended` comes when it can be heard no more, `stop` makes that now. */
export interface Playing {
  readonly milliseconds: number;
  readonly ended: Promise<void>;
  readonly stop: () => void;
}

export type SpeechTrouble = Exclude<SpeechEngineState, 'working'> | 'no-answer' | 'too-old';

export interface SpeakerParts<Sound> {
  /** @throws SpeechFailure */
  readonly fetch: (utterance: Utterance) => Promise<Sound>;
  /** null: the browser lets nothing sound yet */
  readonly play: (sound: Sound, volume: number) => Playing | null;
  /** this screen begins to speak, for so long at most, or is silent again */
  readonly speaking: (milliseconds: number | null) => void;
  readonly trouble: (trouble: SpeechTrouble | null) => void;
}

export class SpeechFailure extends Error {
  override readonly name = 'SpeechFailure';
  constructor(readonly code: SpeechTrouble) {
    super(code);
  }
}

interface Running {
  playing: Playing | null;
  cancelled: boolean;
}

/**
 * Says one thing at a time. What sounds is not cut off, but by something urgent; of what waits only the newest counts,
 * since the older is about a step that is over.
 */
export class Speaker<Sound> {
  private running: Running | null = null;
  private waiting: Utterance | null = null;
  private readonly kept = new Map<string, Sound>();

  constructor(private readonly parts: SpeakerParts<Sound>) {}

  say(utterance: Utterance): void {
    if (this.running?.playing !== null && this.running !== null && !utterance.urgent) {
      this.waiting = utterance;
      return;
    }
    this.silence();
    void this.start(utterance);
  }

  /** Stops at once, and forgets what waits. */
  silence(): void {
    this.waiting = null;
    if (this.running === null) return;
    this.running.cancelled = true;
    this.running.playing?.stop();
    this.running = null;
  }

  /** Fetches what must be sayable when there is no server. */
  async keep(utterance: Utterance): Promise<void> {
    try {
      this.kept.set(keyOf(utterance), await this.parts.fetch(utterance));
    } catch {
      // Then the earcon alone tells.
    }
  }

  private async start(utterance: Utterance): Promise<void> {
    const running: Running = { playing: null, cancelled: false };
    this.running = running;
    try {
      const sound = this.kept.get(keyOf(utterance)) ?? (await this.parts.fetch(utterance));
      if (running.cancelled) return;
      this.parts.trouble(null);
      running.playing = this.parts.play(sound, utterance.volume);
      if (running.playing !== null) {
        this.parts.speaking(running.playing.milliseconds);
        await running.playing.ended;
        this.parts.speaking(null);
      }
    } catch (error) {
      this.parts.trouble(error instanceof SpeechFailure ? error.code : 'no-answer');
    }
    if (this.running !== running) return;
    this.running = null;
    const next = this.waiting;
    this.waiting = null;
    if (next !== null) void this.start(next);
  }
}

function keyOf({ text, language, wordsPerMinute }: Utterance): string {
  return `${language} ${String(wordsPerMinute)} ${text}`;
}
