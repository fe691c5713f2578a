import { createHash } from 'node:crypto';
import { DiskShelf } from './disk-shelf.ts';
import { MemoryShelf } from './memory-shelf.ts';
import { SpeechError } from '#drivers/speech/speech-error.ts';
import { isWholeWave } from '#drivers/speech/wave.ts';
import { plainText, type Synthesiser, type ToSay } from '#drivers/speech/synthesiser.ts';
import type { SpeechEngineState } from '#shared/wire/speech.ts';

export interface SpeechParts {
  readonly synthesiser: Pick<Synthesiser, 'render' | 'version'>;
  /** folder of the sounds that are kept */
  readonly folder: string;
  readonly onTrouble?: (error: unknown) => void;
  readonly memoryBytes?: number;
  readonly diskBytes?: number;
}

const MEMORY_BYTES = 16_000_000;
const DISK_BYTES = 64_000_000;
const AT_ONCE = 2;
const MOST_WAITING = 24;

/** The station's voice: makes each sentence once, keeps the sound, and says in one word whether it can speak at all. */
export class Speech {
  readonly #parts: SpeechParts;
  readonly #memory: MemoryShelf;
  readonly #disk: DiskShelf;
  readonly #making = new Map<string, Promise<Buffer>>();
  readonly #waiting: (() => void)[] = [];
  #running = 0;
  #version: Promise<string> | null = null;
  #state: SpeechEngineState = 'working';

  constructor(parts: SpeechParts) {
    this.#parts = parts;
    this.#memory = new MemoryShelf(parts.memoryBytes ?? MEMORY_BYTES);
    this.#disk = new DiskShelf(parts.folder, parts.diskBytes ?? DISK_BYTES);
  }

  get state(): SpeechEngineState {
    return this.#state;
  }

  /** Looks whether the synthesiser is there; the state says so afterwards. */
  async probe(): Promise<void> {
    await this.#versionOf().catch(() => undefined);
  }

  /**
   * The sound of a sentence as a WAVE file.
   * @throws SpeechError
   */
  async sound(asked: ToSay): Promise<Buffer> {
    const toSay = { ...asked, text: plainText(asked.text) };
    const key = keyOf(toSay, await this.#versionOf());
    const kept = this.#memory.get(key);
    if (kept !== null) return kept;
    const begun = this.#making.get(key);
    if (begun !== undefined) return begun;
    const making = this.#make(key, toSay).finally(() => this.#making.delete(key));
    this.#making.set(key, making);
    return making;
  }

  async #make(key: string, toSay: ToSay): Promise<Buffer> {
    const onDisk = await this.#disk.get(key);
    if (onDisk !== null && isWholeWave(onDisk)) {
      this.#memory.put(key, onDisk);
      return onDisk;
    }
    const sound = await this.#inTurn(() => this.#parts.synthesiser.render(toSay)).catch((error: unknown) => {
      throw this.#failed(error);
    });
    this.#state = 'working';
    this.#memory.put(key, sound);
    await this.#disk.put(key, sound);
    return sound;
  }

  async #inTurn<Result>(work: () => Promise<Result>): Promise<Result> {
    if (this.#running >= AT_ONCE) {
      if (this.#waiting.length >= MOST_WAITING) throw new SpeechError('busy', 'too many sentences wait to be spoken');
      await new Promise<void>((turn) => this.#waiting.push(turn));
    }
    this.#running += 1;
    try {
      return await work();
    } finally {
      this.#running -= 1;
      this.#waiting.shift()?.();
    }
  }

  #versionOf(): Promise<string> {
    this.#version ??= this.#parts.synthesiser.version().then(
      (version) => {
        this.#state = 'working';
        return version;
      },
      (error: unknown) => {
        // Asked again the next time: it may be installed while the server runs.
        this.#version = null;
        throw this.#failed(error);
      },
    );
    return this.#version;
  }

  #failed(error: unknown): SpeechError {
    const failure =
      error instanceof SpeechError ? error : new SpeechError('failed', error instanceof Error ? error.message : '');
    if (failure.code === 'busy' || failure.code === 'bad-text') return failure;
    const state = failure.code === 'not-installed' ? 'not-installed' : 'faulty';
    if (state !== this.#state) this.#parts.onTrouble?.(failure);
    this.#state = state;
    return failure;
  }
}

function keyOf({ text, language, wordsPerMinute }: ToSay, version: string): string {
  const whole = JSON.stringify([version, language, Math.round(wordsPerMinute), text]);
  return createHash('sha256').update(whole).digest('hex').slice(0, 40);
}
