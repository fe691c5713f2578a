import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Reads when its element comes onto the page, and again and again while it is there. */
export class ReadAgain implements ReactiveController {
  readonly #read: () => void;
  readonly #everyMs: number;
  #timer: ReturnType<typeof setInterval> | undefined;

  constructor(host: ReactiveControllerHost, everyMs: number, read: () => void) {
    this.#read = read;
    this.#everyMs = everyMs;
    host.addController(this);
  }

  hostConnected(): void {
    this.#read();
    this.#timer = setInterval(this.#read, this.#everyMs);
  }

  hostDisconnected(): void {
    clearInterval(this.#timer);
  }
}
