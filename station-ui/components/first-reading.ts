import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** How long after a reading that failed the next one begins. */
const ASK_AGAIN_MS = 5000;

/**
 * What a page cannot do without: read when its element comes onto the page, and, as long as that failed, again and again
 * while it is there. So a page that was opened while the server was away needs nobody to open it anew.
 */
export class FirstReading implements ReactiveController {
  readonly #read: (again: boolean) => Promise<boolean>;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** which of its stays on the page this is */
  #stay = 0;

  /** @param read true once it was read; `again` after it has failed before */
  constructor(host: ReactiveControllerHost, read: (again: boolean) => Promise<boolean>) {
    this.#read = read;
    host.addController(this);
  }

  hostConnected(): void {
    this.#stay++;
    void this.#go(false, this.#stay);
  }

  hostDisconnected(): void {
    this.#stay++;
    clearTimeout(this.#timer);
  }

  async #go(again: boolean, stay: number): Promise<void> {
    const done = await this.#read(again);
    if (!done && stay === this.#stay) this.#timer = setTimeout(() => void this.#go(true, stay), ASK_AGAIN_MS);
  }
}
