const BEAT_EVERY_MS = 20_000;

/** Whether anybody is at a bench: as long as one of its screens is linked, its heart beats. */
export class Presence {
  readonly #beat: () => Promise<void>;
  #screens = 0;
  #timer: NodeJS.Timeout | null = null;

  constructor(beat: () => Promise<void>) {
    this.#beat = beat;
  }

  start(): void {
    this.#timer ??= setInterval(() => {
      if (this.#screens > 0) void this.#beat();
    }, BEAT_EVERY_MS);
    this.#timer.unref();
  }

  stop(): void {
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#timer = null;
  }

  came(): () => void {
    this.#screens += 1;
    void this.#beat();
    let gone = false;
    return () => {
      if (!gone) this.#screens -= 1;
      gone = true;
    };
  }
}
