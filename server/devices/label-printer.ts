import { addressOf } from './simulators.ts';
import { runLabelProgram } from './label-program.ts';
import { systemClock } from '#drivers/clock.ts';
import { createPrinterDriver, type PrinterDriver, type PrintResult } from '#drivers/printer/printer-driver.ts';
import { startSimulatedPrinter, type SimulatedPrinter } from '#drivers/printer/simulated-printer.ts';
import type { DeviceTrace } from '#drivers/trace.ts';
import { transportFor } from '#drivers/transport/open.ts';
import { isForProgram } from '#server/labels/label-bytes.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';
import type { DeviceHealth } from '#shared/wire/views.ts';

/** A label of pictures is many times as long as a slip. */
const PRINT_DEADLINE_MS = 20_000;
const SIMULATED_BYTES_PER_SECOND = 60_000;

const NOT_HERE: PrintResult = { outcome: 'failed', why: 'no-label-printer' };

/** What prints the labels of a bench that come from outside: a printer that takes their bytes, a program, both or neither. */
export class LabelPrinter {
  readonly simulator: SimulatedPrinter | null;
  readonly #driver: PrinterDriver | null;
  readonly #bench: BenchConfig;

  private constructor(bench: BenchConfig, simulator: SimulatedPrinter | null, onHealth: () => void) {
    this.#bench = bench;
    this.simulator = simulator;
    const { labelPrinter: printer } = bench;
    this.#driver =
      printer === undefined
        ? null
        : createPrinterDriver({
            transport: transportFor(addressOf(printer.transport, simulator)),
            clock: systemClock,
            deadlineMs: PRINT_DEADLINE_MS,
            // What these questions are to a printer of the other kind would be printed.
            answers: printer.speaks === 'escpos' && printer.status !== 'none',
            onHealth,
          });
  }

  /** @param onHealth the printer may be back */
  static async start(bench: BenchConfig, onHealth: () => void): Promise<LabelPrinter> {
    const simulated = bench.labelPrinter?.transport.kind === 'simulated';
    const simulator = simulated ? await startSimulatedPrinter({ bytesPerSecond: SIMULATED_BYTES_PER_SECOND }) : null;
    const made = new LabelPrinter(bench, simulator, onHealth);
    made.#driver?.start();
    return made;
  }

  /** How the printer is; null where a bench has none, or a program alone. */
  health(): DeviceHealth | null {
    return this.#driver?.health() ?? null;
  }

  /** What it was sent and answered; null where a bench has none. */
  trace(): DeviceTrace | null {
    return this.#driver?.trace() ?? null;
  }

  /** What the system said when its link failed last; null while it is there. */
  failure(): string | null {
    return this.health()?.state === 'lost' ? (this.#driver?.trace().failure ?? null) : null;
  }

  /** Prints one label. Never rejects. */
  print(bytes: Uint8Array): Promise<PrintResult> {
    const { labelProgram } = this.#bench;
    if (isForProgram(bytes)) {
      return labelProgram === undefined ? Promise.resolve(NOT_HERE) : runLabelProgram(labelProgram, bytes);
    }
    return this.#driver === null ? Promise.resolve(NOT_HERE) : this.#driver.print(bytes);
  }

  async stop(): Promise<void> {
    await this.#driver?.stop();
    await this.simulator?.stop();
  }
}
