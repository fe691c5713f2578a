import { collectDefaultMetrics, Counter, Gauge, Histogram, Registry } from 'prom-client';
import type { PrintOutcome } from '#server/printing/print-queue.ts';

/** What came of an input at a bench. */
export type InputOutcome = 'taken' | 'refused' | 'repeated' | 'not-stored';

/**
 * What the server counts as it works, in the Prometheus text format. Labels are benches, devices, states and codes of the
 * program: their number is bounded by the shop's files, and none names a person, an order or a piece.
 */
export class Metrics {
  readonly registry = new Registry();
  readonly #inputs = this.#counter('inputs_total', 'Inputs of runs by their kind and what came of them', [
    'bench',
    'kind',
    'outcome',
  ]);
  readonly #refusals = this.#counter('refusals_total', 'Inputs that a run refused, by what the packer was told', [
    'code',
  ]);
  readonly #prints = this.#counter('prints_total', 'Print jobs by what came of them', ['bench', 'printer', 'outcome']);
  readonly #responses = this.#counter('http_responses_total', 'Answers over HTTP by the class of their status', [
    'status',
  ]);
  readonly #commits = new Histogram({
    name: 'benchfold_store_commit_seconds',
    help: 'How long it took to store an input of a run with all that follows from it',
    buckets: [0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2],
    registers: [this.registry],
  });

  constructor() {
    collectDefaultMetrics({ register: this.registry });
  }

  input(bench: string, kind: string, outcome: InputOutcome): void {
    this.#inputs.inc({ bench, kind, outcome });
  }

  refusal(code: string): void {
    this.#refusals.inc({ code });
  }

  printed(bench: string, printer: 'slips' | 'labels', outcome: PrintOutcome): void {
    this.#prints.inc({ bench, printer, outcome });
  }

  committed(seconds: number): void {
    this.#commits.observe(seconds);
  }

  responded(status: number): void {
    this.#responses.inc({ status: `${String(Math.floor(status / 100))}xx` });
  }

  /** A figure that is looked up whenever somebody asks; each call makes a metric of its own. */
  gauge<Label extends string>(
    name: string,
    help: string,
    labelNames: readonly Label[],
    look: (set: (labels: Readonly<Record<Label, string>>, value: number) => void) => Promise<void> | void,
  ): void {
    new Gauge({
      name: `benchfold_${name}`,
      help,
      labelNames,
      registers: [this.registry],
      async collect() {
        this.reset();
        await look((labels, value) => this.set(labels as Record<Label, string>, value));
      },
    });
  }

  #counter<Label extends string>(name: string, help: string, labelNames: readonly Label[]): Counter<Label> {
    return new Counter({ name: `benchfold_${name}`, help, labelNames, registers: [this.registry] });
  }
}
