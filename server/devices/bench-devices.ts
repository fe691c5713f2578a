import { addressOf, startSimulators, stopSimulators, type Simulators } from './simulators.ts';
import { systemClock } from '#drivers/clock.ts';
import { createPrinterDriver, type PrinterDriver } from '#drivers/printer/printer-driver.ts';
import { createScaleDriver, type ScaleDriver } from '#drivers/scale/scale-driver.ts';
import { settle, settleRulesFor, UNSETTLED, type SettleRules } from '#drivers/scale/settle.ts';
import { repeatGuard, type RepeatState } from '#drivers/scanner/repeat-guard.ts';
import { createScannerDriver, type ScannerDriver } from '#drivers/scanner/scanner-driver.ts';
import { transportFor } from '#drivers/transport/open.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { DeviceHealth, LiveScale } from '#shared/wire/views.ts';

/** What the devices of a bench tell. */
export interface DeviceEvents {
  /** a load has come to rest on a pan that was seen empty before */
  readonly onSettled: (reading: Reading) => void;
  readonly onLive: (live: LiveScale) => void;
  readonly onScan: (text: string) => void;
  readonly onHealth: (health: readonly DeviceHealth[]) => void;
}

const PRINT_DEADLINE_MS = 10_000;
/** A load that was just weighed is no reason to ask for an empty pan: the run moves on within this. */
const TELL_STALE_LOAD_AFTER_MS = 1000;

/** The devices of one bench, kept open, with simulators for those that are not real. */
export class BenchDevices {
  readonly simulators: Simulators;
  readonly printer: PrinterDriver;
  readonly #scale: ScaleDriver;
  readonly #scanner: ScannerDriver | null;
  readonly #events: DeviceEvents;
  readonly #rules: SettleRules;
  #settling = UNSETTLED;
  /** since when a load lies on the pan that will not be weighed */
  #staleSince: number | null = null;
  #onPan: Reading | null = null;
  #live: Reading | null = null;
  #repeat: RepeatState | null = null;

  private constructor(bench: BenchConfig, simulators: Simulators, events: DeviceEvents) {
    this.#rules = settleRulesFor(bench.scale.division);
    this.#events = events;
    this.simulators = simulators;
    const clock = systemClock;
    const onHealth = () => events.onHealth(this.health());
    const { scale, scanner, printer } = bench;
    this.#scale = createScaleDriver({
      transport: transportFor(addressOf(scale.transport, simulators.scale)),
      protocol: scale.protocol,
      division: scale.division,
      capacity: scale.capacity,
      clock,
      onReading: (reading) => this.#onReading(reading),
      onHealth: () => {
        if (this.#scale.health().state === 'lost') this.#forgetPan();
        onHealth();
      },
    });
    this.#scanner =
      scanner === null
        ? null
        : createScannerDriver({
            transport: transportFor(addressOf(scanner.transport, simulators.scanner)),
            clock,
            onScan: (text) => this.#onScan(text, clock.now()),
            onHealth,
          });
    this.printer = createPrinterDriver({
      transport: transportFor(addressOf(printer.transport, simulators.printer)),
      clock,
      deadlineMs: PRINT_DEADLINE_MS,
      onHealth,
    });
  }

  static async start(bench: BenchConfig, shop: Shop, events: DeviceEvents): Promise<BenchDevices> {
    const devices = new BenchDevices(bench, await startSimulators(bench, shop), events);
    devices.#scale.start();
    devices.#scanner?.start();
    devices.printer.start();
    return devices;
  }

  health(): readonly DeviceHealth[] {
    const scanner = this.#scanner === null ? [] : [this.#scanner.health()];
    return [this.#scale.health(), ...scanner, this.printer.health()];
  }

  live(): LiveScale {
    const reading = this.#live;
    const waited = reading === null || this.#staleSince === null ? 0 : reading.at - this.#staleSince;
    return {
      reading,
      needsEmptying: waited >= TELL_STALE_LOAD_AFTER_MS,
      discarded: this.#scale.discarded(),
    };
  }

  /** The load that lies settled on the pan now, if one does. */
  onPan(): Reading | null {
    return this.#onPan;
  }

  zero(): Promise<'sent' | 'not-connected' | 'not-supported'> {
    return this.#scale.zero();
  }

  async stop(): Promise<void> {
    await Promise.all([this.#scale.stop(), this.#scanner?.stop(), this.printer.stop()]);
    await stopSimulators(this.simulators);
  }

  #onReading(reading: Reading): void {
    this.#live = reading;
    const { state, event } = settle(this.#rules, this.#settling, reading);
    this.#settling = state;
    const stale = reading.condition === 'ok' && reading.mass > this.#rules.emptyBelow && state.stage !== 'empty';
    this.#staleSince = stale ? (this.#staleSince ?? reading.at) : null;
    this.#events.onLive(this.live());
    if (event === 'pan-empty') this.#onPan = null;
    else if (event !== null) {
      this.#onPan = event.settled;
      this.#events.onSettled(event.settled);
    }
  }

  /** With the scale gone nobody knows what lies on it: the pan must be seen empty again. */
  #forgetPan(): void {
    this.#settling = UNSETTLED;
    this.#onPan = null;
    this.#live = null;
    this.#events.onLive(this.live());
  }

  #onScan(text: string, at: number): void {
    const { state, act } = repeatGuard(this.#repeat, text, at);
    this.#repeat = state;
    if (act) this.#events.onScan(text);
  }
}
