import { randomUUID } from 'node:crypto';
import { setTimeout as sleep } from 'node:timers/promises';
import { BenchClient } from '#tests/support/bench-client.ts';
import type { BenchPorts } from './day-shop.ts';
import { startSimulatedPrinter, type SimulatedPrinter } from '#drivers/printer/simulated-printer.ts';
import { startSimulatedScale, type SimulatedScale } from '#drivers/scale/simulated-scale.ts';
import { systemClock, type Clock } from '#drivers/clock.ts';
import { startSimulatedScanner, type SimulatedScanner } from '#drivers/scanner/simulated-scanner.ts';
import { gs1CheckDigit } from '#shared/codes/check-digits.ts';
import type { Command } from '#shared/run/commands.ts';
import { parseMass, subtractMass, ZERO_MASS } from '#shared/units/mass.ts';
import type { Ack, BenchInput } from '#shared/wire/events.ts';
import type { BenchView } from '#shared/wire/views.ts';

/** The devices of a bench, which outlive the server: what was printed is known to them and not only to the store. */
export interface Devices {
  readonly scale: SimulatedScale;
  readonly scanner: SimulatedScanner;
  readonly printer: SimulatedPrinter;
  readonly ports: BenchPorts;
  stop(): Promise<void>;
}

/** So many times ten a second. */
const MOST_FRAMES = 3;

/** @param haste so many times as quick as real ones, for a server that is to be busy */
export async function startDevices(haste = 1): Promise<Devices> {
  // A hasty scale comes to rest sooner, but sends no more frames than a quick real one.
  const often = Math.min(haste, MOST_FRAMES);
  const clock: Clock = {
    now: () => systemClock.now() * haste,
    after: (milliseconds, task) => systemClock.after(milliseconds / often, task),
  };
  const scale = await startSimulatedScale({
    protocol: 'continuous',
    division: parseMass('0.1 oz'),
    capacity: parseMass('70 lb'),
    unit: 'oz',
    places: 1,
    ...(haste === 1 ? {} : { clock }),
  });
  const scanner = await startSimulatedScanner();
  const printer = await startSimulatedPrinter({ bytesPerSecond: 60_000 * haste });
  return {
    scale,
    scanner,
    printer,
    ports: { scale: scale.port, scanner: scanner.port, printer: printer.port },
    stop: async () => {
      await Promise.all([scale.stop(), scanner.stop(), printer.stop()]);
    },
  };
}

/** An input that the server has acknowledged. */
export interface Acknowledged {
  readonly bench: string;
  readonly id: string;
  readonly seq: number;
}

export interface PackerParts {
  readonly bench: string;
  readonly devices: Devices;
  readonly uniform: () => number;
  readonly onAcknowledged?: (acknowledged: Acknowledged) => void;
  /** from a code that was scanned, or a button that was pressed, to the view that follows from it, in ms */
  readonly onStep?: (by: 'scan' | 'touch', ms: number) => void;
  /** now and then something other than the straight way: too tight, back, set aside, released */
  readonly wayward?: boolean;
  /** of the hands, beside that of the devices */
  readonly haste?: number;
  /** begins an order in so many ms at the soonest; the hands take half of it, a little for each step */
  readonly everyMs?: number;
  /** and the first one after so many, so that not all benches begin at once */
  readonly firstAfterMs?: number;
}

const ANSWER_WITHIN_MS = 1500;
const SOON_MS = 4;
const LOOK_AGAIN_MS = 50;
/** A confirmation that comes at once is taken for a finger that bounced. */
const CONFIRM_AFTER_MS = 700;
/** Steps of an order for which hands move. */
const STEPS_AN_ORDER = 14;
/** How long the next order may take from the press to the screen. */
const NEXT_WITHIN_MS = 2000;

/**
 * A packer at a bench, on the real socket and with devices that speak bytes. What was given and not acknowledged is given
 * again with the same id, as the bench's page does, for as long as the server is away.
 */
export class Packer {
  readonly bench: string;
  readonly #parts: PackerParts;
  #client: BenchClient | null = null;
  #pending: BenchInput | null = null;
  #stopped = false;
  orders = 0;
  #beganAt: number;

  constructor(parts: PackerParts) {
    this.#parts = parts;
    this.bench = parts.bench;
    this.#beganAt = performance.now() + (parts.firstAfterMs ?? 0) - (parts.everyMs ?? 0);
  }

  /** Packs until it is stopped; comes back by itself when the server does. */
  async work(url: string): Promise<void> {
    const client = new BenchClient(url, this.bench, { reconnectionDelay: 40, reconnectionDelayMax: 80 });
    client.socket.on('disconnect', () => (client.view = null));
    this.#client = client;
    try {
      while (!this.#stopped) {
        const { view } = client;
        if (view === null || !client.socket.connected) {
          await sleep(SOON_MS);
          continue;
        }
        if (this.#pending !== null) await this.#give(client, this.#pending);
        else {
          await this.#hands();
          if (client.view !== null) await this.#step(client, client.view);
        }
      }
    } finally {
      client.close();
    }
  }

  stop(): void {
    this.#stopped = true;
  }

  get view(): BenchView | null {
    return this.#client?.view ?? null;
  }

  async #step(client: BenchClient, view: BenchView): Promise<void> {
    const { uniform, wayward = false } = this.#parts;
    const { task } = view;
    const { at } = task;
    if (view.confirming !== null) {
      await sleep(CONFIRM_AFTER_MS);
      return this.#command(client, view, 'confirm');
    }
    if (wayward && view.order !== null && uniform() < 0.03) {
      const other = (['too-tight', 'back', 'set-aside', 'release'] as const).filter((each) =>
        view.commands.includes(each),
      );
      const chosen = other[Math.floor(uniform() * other.length)];
      if (chosen !== undefined) return this.#command(client, view, chosen);
    }
    if (at === 'gather') {
      const missing = view.order?.pieces.find(({ due, gathered }) => gathered < due);
      if (missing !== undefined && uniform() < 0.7) return this.#scan(client, view, missing.sku);
    }
    if (at === 'weigh') return this.#weigh(client, view);
    if (at === 'decide') {
      return this.#command(client, view, view.commands.includes('pay-next-bracket') ? 'pay-next-bracket' : 'next');
    }
    if (task.at === 'label') {
      const { label } = view;
      if (label?.state === 'coming') return this.#until(client, () => client.view !== view, 200);
      return this.#scan(client, view, labelCode(task.postcode, label?.number ?? this.#labelOfRoll()));
    }
    if (at === 'done' || at === 'idle') return this.#nextOrder(client, view);
    return this.#command(client, view, 'next');
  }

  async #nextOrder(client: BenchClient, view: BenchView): Promise<void> {
    const { devices, everyMs = 0 } = this.#parts;
    if (view.task.at === 'done') this.orders++;
    if (view.task.at === 'idle' && view.next === null && view.notice?.code === 'no-order-waiting') await sleep(200);
    devices.scale.emptyPan();
    await sleep(Math.max(0, this.#beganAt + everyMs - performance.now()));
    this.#beganAt = performance.now();
    await this.#command(client, view, 'next');
    // The bench is empty until the order is planned: a second press would be one on what comes then.
    if (everyMs > 0) await this.#until(client, () => client.view?.task.at !== 'idle', NEXT_WITHIN_MS);
  }

  /** No two benches move in step: what they send comes to the server as it does from hands, now and then. */
  async #hands(): Promise<void> {
    const { everyMs = 0, uniform } = this.#parts;
    if (everyMs > 0) await sleep((uniform() * everyMs) / STEPS_AN_ORDER);
  }

  async #weigh(client: BenchClient, view: BenchView): Promise<void> {
    const { scale } = this.#parts.devices;
    const expected = view.weigh === null ? ZERO_MASS : subtractMass(view.weigh.expected.mean, view.weigh.toCome);
    if (view.notice !== null && client.live?.reading?.mass !== 0) scale.emptyPan();
    const empty = () => client.live?.reading?.mass === 0 && client.live.reading.stability === 'still';
    await this.#until(client, () => empty() || moved(client, view), 3000);
    if (moved(client, view)) return;
    await sleep(150 / (this.#parts.haste ?? 1));
    scale.putMass(expected);
    await this.#until(client, () => moved(client, view), 2500);
    if (!moved(client, view)) scale.emptyPan();
  }

  async #scan(client: BenchClient, view: BenchView, text: string): Promise<void> {
    const from = performance.now();
    this.#parts.devices.scanner.scan(text);
    await this.#until(client, () => moved(client, view), 2000);
    if ((client.view?.seq ?? 0) > view.seq) this.#parts.onStep?.('scan', performance.now() - from);
  }

  #command(client: BenchClient, view: BenchView, command: Command): Promise<void> {
    const input: BenchInput = {
      id: randomUUID(),
      type: 'command',
      command,
      by: 'touch',
      ...(command === 'set-aside' ? { reason: 'other' as const } : {}),
    };
    this.#pending = input;
    return this.#give(client, input, view);
  }

  async #give(client: BenchClient, input: BenchInput, view = client.view): Promise<void> {
    const from = performance.now();
    try {
      const ack = (await client.socket.timeout(ANSWER_WITHIN_MS).emitWithAck('input', input)) as Ack;
      this.#pending = null;
      if (!ack.ok) {
        await sleep(50);
        return;
      }
      this.#parts.onAcknowledged?.({ bench: this.bench, id: input.id, seq: ack.seq });
      if (view === null || ack.seq <= view.seq) return;
      await this.#until(client, () => (client.view?.seq ?? 0) >= ack.seq, 2000);
      this.#parts.onStep?.('touch', performance.now() - from);
    } catch {
      // The server is away: the same input is given again.
    }
  }

  /** A number of its own with a good check digit, as on a roll of labels that were bought ahead. */
  #labelOfRoll(): string {
    const bench = this.bench.replace(/\D/g, '').padStart(3, '0');
    const digits = `92${bench}${String(Date.now()).padStart(14, '0')}00`;
    return `${digits}${String(gs1CheckDigit(digits) ?? 0)}`;
  }

  /** Looks again whenever the bench's screen is told something. */
  async #until(client: BenchClient, condition: () => boolean, ms: number): Promise<void> {
    const end = performance.now() + ms;
    while (!this.#stopped && client.view !== null && !condition()) {
      const left = end - performance.now();
      if (left <= 0) return;
      await client.told(Math.min(left, LOOK_AGAIN_MS));
    }
  }
}

/** GS1 (420) with the postcode before a parcel number of the trade's form; another number as it is. */
function labelCode(postcode: string, number: string): string {
  return /^9\d{19,33}$/.test(number) ? `]C1420${postcode}\u001d${number}` : number;
}

function moved(client: BenchClient, before: BenchView): boolean {
  const { view } = client;
  return view === null || view.seq > before.seq || (view.notice !== before.notice && view !== before);
}
