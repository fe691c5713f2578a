import { surroundingsOf } from './between-orders.ts';
import type { BenchView } from '#shared/wire/views.ts';

export interface ViewPublisherParts {
  readonly view: () => Promise<BenchView>;
  /** nothing is shown any more */
  readonly isStopped: () => boolean;
  readonly onView: (view: BenchView) => void;
  readonly onError: (error: unknown) => void;
}

/** Shows a bench's screens its view, one after the other; asked for again before it is made, it is made once. */
export class ViewPublisher {
  readonly #parts: ViewPublisherParts;
  #publishing: Promise<void> = Promise.resolve();
  #toPublish = false;
  /** what was shown last of the queue, the day and the time left */
  #surroundings = '';

  constructor(parts: ViewPublisherParts) {
    this.#parts = parts;
  }

  publish(): void {
    if (this.#toPublish) return;
    this.#toPublish = true;
    const begin = () => {
      this.#toPublish = false;
    };
    this.#next(begin, () => true);
  }

  /** Shows what has changed around the run, where something has. Resolves once that is shown. */
  async refresh(): Promise<void> {
    // A view that is asked for already shows it, too.
    if (!this.#toPublish)
      this.#next(
        () => undefined,
        (surroundings) => surroundings !== this.#surroundings,
      );
    await this.#publishing;
  }

  #next(begin: () => void, isToShow: (surroundings: string) => boolean): void {
    const { view, isStopped, onView, onError } = this.#parts;
    this.#publishing = this.#publishing
      .then(async () => {
        begin();
        if (isStopped()) return;
        const made = await view();
        const surroundings = surroundingsOf(made);
        if (!isToShow(surroundings)) return;
        this.#surroundings = surroundings;
        onView(made);
      })
      .catch(onError);
  }

  async settled(): Promise<void> {
    await this.#publishing;
  }
}
