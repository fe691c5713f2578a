import { labelDue } from './label-due.ts';
import type { StationParts } from './station-parts.ts';
import { LabelPrinter } from '#server/devices/label-printer.ts';
import { labelShown, type LabelShown } from '#server/labels/bench-label.ts';
import { labelQueue } from '#server/labels/label-queue.ts';
import { queueLabelAgain } from '#server/labels/print-again.ts';
import { PrintQueue } from '#server/printing/print-queue.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import { isSameNumber } from '#shared/labels/same-number.ts';
import type { RunState } from '#shared/run/types.ts';
import { addPrintJob } from '#server/store/print-jobs.ts';
import { inTransaction } from '#server/store/in-transaction.ts';

/** The labels of one bench that come from outside: their printer and its queue, and what the bench shows of them. */
export class StationLabels {
  readonly #parts: StationParts;
  readonly #publish: () => void;
  readonly #queue: PrintQueue;
  #printer: LabelPrinter | null = null;

  constructor(parts: StationParts, publish: () => void) {
    this.#parts = parts;
    this.#publish = publish;
    this.#queue = new PrintQueue({
      store: parts.store,
      bench: labelQueue(parts.bench.id),
      clock: parts.clock,
      print: async (bytes) => (await this.#printer?.print(bytes)) ?? { outcome: 'failed', why: 'no-label-printer' },
      onOutcome: (_job, outcome) => {
        parts.metrics?.printed(parts.bench.id, 'labels', outcome);
        publish();
        return Promise.resolve();
      },
      onError: (error) => parts.log.error({ error, bench: parts.bench.id }, 'the label queue stopped'),
    });
  }

  async start(): Promise<void> {
    this.#printer = await LabelPrinter.start(this.#parts.bench, () => this.#queue.kick());
    await this.#queue.recover();
    this.#queue.kick();
  }

  /** The label printer may be another one now. */
  async reopen(): Promise<void> {
    await this.#printer?.stop();
    this.#printer = await LabelPrinter.start(this.#parts.bench, () => this.#queue.kick());
    this.#queue.kick();
  }

  async stop(): Promise<void> {
    this.#queue.stop();
    await this.#printer?.stop();
  }

  /** The simulator in the place of the label printer; null where that is real or there is none. */
  get simulator(): LabelPrinter['simulator'] {
    return this.#printer?.simulator ?? null;
  }

  /** How the label printer is, for the office; null where the bench has none. */
  get printer(): Pick<LabelPrinter, 'health' | 'failure' | 'simulator' | 'trace'> | null {
    return this.#printer;
  }

  /** Prints a page that shows whether the label printer works. */
  async trial(page: { readonly bytes: Uint8Array; readonly title: string }): Promise<void> {
    const { store, bench, clock } = this.#parts;
    await addPrintJob(store, { ...page, bench: labelQueue(bench.id), run: null, parcel: 0, now: clock.now() });
    this.#queue.kick();
  }

  /** Whether labels are asked for from outside now. */
  get asked(): boolean {
    const { labels, shops } = this.#parts;
    return labels === undefined ? shops.current.labels !== undefined : labels.settings !== null;
  }

  /** A parcel's label is due at this bench from now on. */
  waits(): void {
    this.#parts.labels?.waitsAt(this.#parts.bench.id);
  }

  /** Something became known of a label: the screens show it, and it may have to be printed. */
  news(): void {
    this.#queue.kick();
    this.#publish();
  }

  /** Prints a label again that a person asked for; one whose outcome nobody knows is settled with it. */
  printAgain(key: string): Promise<'queued' | 'not-printable' | 'unknown'> {
    const { store, clock, bench } = this.#parts;
    return inTransaction(store, (transaction) =>
      queueLabelAgain(transaction, { bench, key, now: clock.now() }),
    ).finally(() => this.news());
  }

  /** A number that was bought may look like nothing that is known. */
  async meaningOf(text: string, meaning: ScanMeaning, run: RunState): Promise<ScanMeaning> {
    if (meaning.means !== 'unknown') return meaning;
    const due = await labelDue(this.#parts.store, run);
    return due !== null && isSameNumber(text, due) ? { means: 'label', text, number: due, postcode: null } : meaning;
  }

  /** What is shown of the label of the parcel at hand. */
  shown(run: RunState, now: number): Promise<LabelShown> {
    const { store, shops, labels } = this.#parts;
    return labelShown(store, shops.current, run, { now, patienceSeconds: labels?.settings?.patienceSeconds });
  }
}
