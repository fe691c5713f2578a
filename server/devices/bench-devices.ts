import { addressOf, startSimulators, stopSimulators, type Simulators } from './simulators.ts';
import { systemClock } from '#drivers/clock.ts';
import { createPrinterDriver, type PrinterDriver } from '#drivers/printer/printer-driver.ts';
import type { ScaleTask } from '#drivers/scale/protocol.ts';
import {
  createScaleDriver,
  type ScaleDriver,
  type ScaleIdentity,
  type TaskOutcome,
} from '#drivers/scale/scale-driver.ts';
import { settle, settleRulesFor, UNSETTLED, type SettleRules } from '#drivers/scale/settle.ts';
import { repeatGuard, type RepeatState } from '#shared/codes/repeat-guard.ts';
import { createScannerDriver, type ScannerDriver } from '#drivers/scanner/scanner-driver.ts';
import { transportFor } from '#drivers/transport/open.ts';
import type { ScreenRelay } from '#drivers/transport/screen-relay.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { DeviceTrace } from '#drivers/trace.ts';
import { needsZeroing, NO_DRIFT, seenEmpty, type ZeroDrift } from '#drivers/scale/zero-drift.ts';
import { massFromBase, type Mass } from '#shared/units/mass.ts';
import type { DeviceHealth, DeviceName, LiveScale } from '#shared/wire/views.ts';
import { FrameLog } from './frame-log.ts';

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
  /** with simulators where they stand in for real devices */
  readonly bench: BenchConfig;
  readonly frames: Readonly<Record<DeviceName, FrameLog>>;
  readonly #division: Mass;
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
  #zero: ZeroDrift = NO_DRIFT;

  private constructor(bench: BenchConfig, simulators: Simulators, events: DeviceEvents, onScreen: ScreenRelay) {
    this.bench = bench;
    this.#rules = settleRulesFor(bench.scale.division);
    this.#events = events;
    this.simulators = simulators;
    this.#division = bench.scale.division;
    const clock = systemClock;
    this.frames = { scale: new FrameLog(clock), scanner: new FrameLog(clock), printer: new FrameLog(clock) };
    const onHealth = () => events.onHealth(this.health());
    const { scale, scanner, printer } = bench;
    this.#scale = createScaleDriver({
      transport:
        scale.transport.kind === 'hid-on-screen'
          ? onScreen
          : transportFor(addressOf(scale.transport, simulators.scale)),
      protocol: scale.protocol,
      division: scale.division,
      capacity: scale.capacity,
      clock,
      onReading: (reading) => this.#onReading(reading),
      onFrame: (frame) => this.frames.scale.scale(frame),
      onHealth: (health) => {
        if (saysNothing(health)) this.#forgetPan();
        onHealth();
      },
      ...(scale.unit === undefined ? {} : { unitIfMissing: scale.unit }),
    });
    this.#scanner =
      scanner === null
        ? null
        : createScannerDriver({
            transport: transportFor(addressOf(scanner.transport, simulators.scanner)),
            clock,
            onScan: (text) => this.#onScan(text, clock.now()),
            onFrame: (frame) => this.frames.scanner.scanner(frame),
            onHealth,
            framing: {
              ...(scanner.prefix === undefined ? {} : { prefix: scanner.prefix }),
              ...(scanner.suffix === undefined ? {} : { suffix: scanner.suffix }),
            },
          });
    this.printer = createPrinterDriver({
      transport: transportFor(addressOf(printer.transport, simulators.printer)),
      clock,
      deadlineMs: PRINT_DEADLINE_MS,
      answers: printer.status !== 'none',
      onFrame: (frame) => this.frames.printer.printer(frame),
      onHealth,
    });
  }

  /** @param onScreen where the reports of a scale at the bench's screen come in */
  static async start(
    bench: BenchConfig,
    shop: Shop,
    events: DeviceEvents,
    onScreen: ScreenRelay,
  ): Promise<BenchDevices> {
    const devices = new BenchDevices(bench, await startSimulators(bench, shop), events, onScreen);
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
      needsZeroing: reading !== null && needsZeroing(this.#zero, this.#division) ? this.#zero.drift : null,
      discarded: this.#scale.discarded(),
    };
  }

  /** The load that lies settled on the pan now, if one does. */
  onPan(): Reading | null {
    return this.#onPan;
  }

  /** How far the zero has moved as an empty pan showed it last, by its size. */
  zeroDrift(): Mass {
    return massFromBase(Math.abs(this.#zero.drift));
  }

  trace(device: DeviceName): DeviceTrace | null {
    if (device === 'scale') return this.#scale.trace();
    return device === 'printer' ? this.printer.trace() : (this.#scanner?.trace() ?? null);
  }

  tellScale(task: ScaleTask): Promise<TaskOutcome> {
    return this.#scale.tell(task);
  }

  /** What the scale says of itself; null when it is away or does not speak of itself. */
  identifyScale(): Promise<ScaleIdentity | null> {
    return this.#scale.identify();
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
    // Seen empty and still: what the scale shows now is how far its zero has moved.
    const still = state.agreeing.length >= (reading.stability === 'still' ? 2 : this.#rules.readings);
    if (state.stage === 'empty' && still && Math.abs(reading.mass) <= this.#rules.emptyBelow && !reading.net) {
      this.#zero = seenEmpty(reading);
    }
    const stale = reading.condition === 'ok' && reading.mass > this.#rules.emptyBelow && state.stage !== 'empty';
    this.#staleSince = stale ? (this.#staleSince ?? reading.at) : null;
    this.#events.onLive(this.live());
    if (event === 'pan-empty') this.#onPan = null;
    else if (event !== null) {
      this.#onPan = event.settled;
      this.#events.onSettled(event.settled);
    }
  }

  /** With the scale gone or silent nobody knows what lies on it: the pan must be seen empty again. */
  #forgetPan(): void {
    this.#settling = UNSETTLED;
    this.#onPan = null;
    this.#live = null;
    this.#staleSince = null;
    this.#events.onLive(this.live());
  }

  #onScan(text: string, at: number): void {
    const { state, act } = repeatGuard(this.#repeat, text, at);
    this.#repeat = state;
    if (act) this.#events.onScan(text);
  }
}

/** No good frame comes: what the scale said last is no reading any more. */
function saysNothing({ state, trouble }: DeviceHealth): boolean {
  return state === 'lost' || state === 'silent' || trouble === 'garbage' || trouble === 'contradiction';
}
