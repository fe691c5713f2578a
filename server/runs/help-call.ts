import type { Logger } from 'pino';
import type { Command } from '#shared/run/commands.ts';

/** Hearing it once more is no sign that somebody came. */
const LEAVES_OPEN: readonly Command[] = ['help', 'repeat'];

/** A call for help from a bench: it stands until whoever called goes on with something. */
export class HelpCall {
  readonly #bench: string;
  readonly #log: Pick<Logger, 'warn'>;
  readonly #onCall: () => void;
  #open = false;

  constructor(bench: string, log: Pick<Logger, 'warn'>, onCall: () => void) {
    this.#bench = bench;
    this.#log = log;
    this.#onCall = onCall;
  }

  get open(): boolean {
    return this.#open;
  }

  call(): void {
    this.#open = true;
    this.#log.warn({ bench: this.#bench }, 'a packer asks for help');
    this.#onCall();
  }

  /** The packer gave something. */
  given(command: Command | null): void {
    if (command === null || !LEAVES_OPEN.includes(command)) this.#open = false;
  }
}
