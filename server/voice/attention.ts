import type { ListeningMode } from '#shared/wire/voice.ts';

/** A held key that is let go may cut off the last sound of a word. */
const HELD_ON_MS = 250;

export type Attending =
  /** what is said counts */
  | 'commands'
  /** only the wake phrase does */
  | 'wake-phrase'
  /** nothing does: push-to-talk is not held */
  | 'nothing';

/** When a bench listens for commands: always, while a key is held, or for a while after its wake phrase. */
export class Attention {
  #mode: ListeningMode;
  readonly #wakeMs: number;
  readonly #held = new Set<string>();
  #heldUntil = 0;
  #awakeUntil = 0;

  constructor(mode: ListeningMode, wakeMs: number) {
    this.#mode = mode;
    this.#wakeMs = wakeMs;
  }

  get mode(): ListeningMode {
    return this.#mode;
  }

  become(mode: ListeningMode): void {
    this.#mode = mode;
    this.#held.clear();
    this.#heldUntil = 0;
    this.#awakeUntil = 0;
  }

  /** `who` holds the key: two screens may. */
  hold(who: string): void {
    this.#held.add(who);
  }

  letGo(who: string, now: number): void {
    if (this.#held.delete(who) && this.#held.size === 0) this.#heldUntil = now + HELD_ON_MS;
  }

  /** The wake phrase or a command was taken: what comes next is meant for the station too. */
  wake(now: number): void {
    this.#awakeUntil = now + this.#wakeMs;
  }

  at(now: number): Attending {
    if (this.#mode === 'push-to-talk') return this.#held.size > 0 || now < this.#heldUntil ? 'commands' : 'nothing';
    if (this.#mode === 'after-wake-phrase') return now < this.#awakeUntil ? 'commands' : 'wake-phrase';
    return 'commands';
  }

  /** Milliseconds until this changes by itself, or null. */
  changesIn(now: number): number | null {
    const until = this.#mode === 'after-wake-phrase' ? this.#awakeUntil : this.#held.size > 0 ? 0 : this.#heldUntil;
    return until > now ? until - now : null;
  }
}
