import { randomUUID } from 'node:crypto';
import { setTimeout as sleep } from 'node:timers/promises';
import { io, type Socket } from 'socket.io-client';
import type { Act, RecordedAct, RecordedDay } from './recorded-day.ts';
import { containerCode, orderCode } from '#shared/codes/our-codes.ts';
import { CONFIRM_NOT_BEFORE_MS } from '#shared/run/on-command.ts';
import type {
  Ack,
  BenchInput,
  BenchToServer,
  ServerToBench,
  SimulatorAction,
  SimulatorOffers,
} from '#shared/wire/events.ts';
import type { BenchRow } from '#shared/wire/office.ts';
import type { BenchView, LiveScale } from '#shared/wire/views.ts';

export interface ReplayWish {
  /** of a running server with simulated devices */
  readonly url: string;
  /** so many times as fast as it was recorded; null: as fast as it goes */
  readonly speed: number | null;
}

export interface Replayed {
  readonly acts: number;
  /** what the bench took and moved on by */
  readonly taken: number;
  /** what did not fit where the bench stood: its plan was another one */
  readonly skipped: number;
  readonly orders: number;
  readonly seconds: number;
  /** from what was given to the view that followed, ms */
  readonly p50: number;
  readonly p99: number;
}

/** The server refused something that a replay needs. `message` is one line for the console. */
export class ReplayError extends Error {
  override readonly name = 'ReplayError';
}

const AT_ONCE = 400;
const FITS_WITHIN_MS = 10_000;
/** A bench that is out of step with the record is not waited for at each act. */
const OUT_OF_STEP_MS = 300;

/**
 * Plays a recorded day to a live server: brings its pieces and orders in, then does at each bench what was done, through the
 * bench's own socket and the simulated devices' bytes. Benches of the recording are shared out among the server's.
 * @throws ReplayError
 */
export async function replayDay(day: RecordedDay, { url, speed }: ReplayWish): Promise<Replayed> {
  await bringIn(day, url);
  const benches = (await ask(`${url}/api/benches`)) as readonly BenchRow[];
  const byBench = new Map<string, RecordedAct[]>();
  for (const each of day.acts) {
    const bench = benches[(each.bench - 1) % benches.length]?.id ?? '';
    byBench.set(bench, [...(byBench.get(bench) ?? []), each]);
  }
  const first = day.acts[0]?.at ?? 0;
  const begun = performance.now();
  const players = [...byBench].map(([bench, acts]) => new Player(url, bench).play(acts, { first, begun, speed }));
  const played = await Promise.all(players);
  const times = played.flatMap((each) => each.times).sort((one, other) => one - other);
  const at = (share: number) => times[Math.min(times.length - 1, Math.floor(times.length * share))] ?? 0;
  const sum = (of: 'taken' | 'skipped' | 'orders') => played.reduce((total, each) => total + each[of], 0);
  return {
    acts: day.acts.length,
    taken: sum('taken'),
    skipped: sum('skipped'),
    orders: sum('orders'),
    seconds: (performance.now() - begun) / 1000,
    p50: at(0.5),
    p99: at(0.99),
  };
}

async function ask(url: string, body?: unknown, headers: Readonly<Record<string, string>> = {}): Promise<unknown> {
  const answer = await fetch(
    url,
    body === undefined
      ? { headers }
      : { method: 'POST', headers: { 'content-type': 'application/json', ...headers }, body: JSON.stringify(body) },
  ).catch((error: unknown) => {
    throw new ReplayError(
      `${url}: expected a running server (${error instanceof Error ? error.message : String(error)})`,
    );
  });
  if (!answer.ok) throw new ReplayError(`${url}: refused with ${String(answer.status)} ${await answer.text()}`);
  return answer.json();
}

async function bringIn({ pieces, orders }: RecordedDay, url: string): Promise<void> {
  const made = (await ask(`${url}/api/intake-tokens`, { name: 'replay', may: ['pieces', 'orders'] })) as {
    readonly token: string;
    readonly tokens: readonly { readonly id: number; readonly name: string; readonly revokedAt: number | null }[];
  };
  const authorization = { authorization: `Bearer ${made.token}` };
  for (const [subject, records] of [
    ['pieces', pieces],
    ['orders', orders],
  ] as const) {
    for (let at = 0; at < records.length; at += AT_ONCE) {
      await ask(`${url}/api/intake/${subject}`, records.slice(at, at + AT_ONCE), authorization);
    }
  }
  for (const { id, name, revokedAt } of made.tokens) {
    if (name === 'replay' && revokedAt === null) await ask(`${url}/api/intake-tokens/${String(id)}/revoke`, {});
  }
}

interface Pace {
  readonly first: number;
  readonly begun: number;
  readonly speed: number | null;
}

/** One bench of a replay. */
class Player {
  readonly #socket: Socket<ServerToBench, BenchToServer>;
  #view: BenchView | null = null;
  #live: LiveScale | null = null;
  #offers: SimulatorOffers | null = null;
  #changed: () => void = () => undefined;

  constructor(url: string, bench: string) {
    this.#socket = io(`${url}/bench`, { auth: { bench }, transports: ['websocket'], forceNew: true });
    this.#socket.on('view', (view) => this.#seen(() => (this.#view = view)));
    this.#socket.on('scale', (live) => this.#seen(() => (this.#live = live)));
    this.#socket.on('simulator', (offers) => this.#seen(() => (this.#offers = offers)));
  }

  #seen(keep: () => void): void {
    keep();
    this.#changed();
  }

  async play(acts: readonly RecordedAct[], { first, begun, speed }: Pace) {
    const result = { taken: 0, skipped: 0, orders: 0, times: [] as number[] };
    await this.#until(() => this.#view !== null);
    let inStep = true;
    for (const { at, act } of acts) {
      if (speed !== null) await sleep(Math.max(0, begun + (at - first) / speed - performance.now()));
      if (act.do === 'order') await this.#setAsideUnfinished();
      if (!(await this.#until(() => this.#fits(act), inStep ? FITS_WITHIN_MS : OUT_OF_STEP_MS))) {
        inStep = false;
        result.skipped += 1;
        continue;
      }
      const before = this.#view?.seq ?? 0;
      const from = await this.#give(act);
      if (await this.#until(() => this.#followed(act, before))) {
        result.taken += 1;
        inStep = true;
        if (from !== null) result.times.push(performance.now() - from);
        if (this.#view?.task.at === 'done') result.orders += 1;
      } else result.skipped += 1;
    }
    this.#socket.disconnect();
    return result;
  }

  /** An order that took another course than the recorded one makes room for the next. */
  async #setAsideUnfinished(): Promise<void> {
    if (this.#view === null || !this.#view.commands.includes('set-aside')) return;
    const aside = { type: 'command', command: 'set-aside', by: 'key', reason: 'other' } as const;
    await this.#input({ id: randomUUID(), ...aside });
    await this.#until(() => this.#view?.confirming !== null);
    // A confirmation that comes at once is taken for a finger that bounced.
    await sleep(CONFIRM_NOT_BEFORE_MS + 50);
    await this.#input({ id: randomUUID(), type: 'command', command: 'confirm', by: 'key' });
  }

  #fits(act: Act): boolean {
    const view = this.#view;
    if (view === null) return false;
    const { at } = view.task;
    switch (act.do) {
      case 'order':
        return at === 'idle' || at === 'done';
      case 'piece':
        return at === 'gather';
      case 'container':
        return at === 'fill';
      case 'weigh':
        return at === 'weigh';
      case 'label':
        return at === 'label' && this.#label() !== undefined;
      case 'command':
        return act.command === 'confirm' ? view.confirming !== null : view.commands.includes(act.command);
    }
  }

  /** A weighing and an order follow in their own time; what else changes meanwhile is not theirs. */
  #followed({ do: did }: Act, before: number): boolean {
    const at = this.#view?.task.at;
    if (did === 'weigh') return at !== 'weigh';
    if (did === 'order') return at === 'gather';
    return (this.#view?.seq ?? 0) > before;
  }

  #label(): string | undefined {
    const task = this.#view?.task;
    const postcode = task?.at === 'label' ? task.postcode : '';
    return this.#offers?.codes.find(({ text }) => text.startsWith(`]C1420${postcode}\u001d`))?.text;
  }

  /** When it was given; null for what takes its own time, as a scale does. */
  async #give(act: Act): Promise<number | null> {
    const from = performance.now();
    switch (act.do) {
      case 'order':
        await this.#simulate({ do: 'scan', text: orderCode(act.order) });
        return null;
      case 'piece':
        await this.#simulate({ do: 'scan', text: act.sku });
        return from;
      case 'container':
        await this.#simulate({ do: 'scan', text: containerCode(act.container) });
        return from;
      case 'label':
        await this.#simulate({ do: 'scan', text: this.#label() ?? '' });
        return from;
      case 'weigh':
        await this.#simulate({ do: 'empty-pan' });
        await this.#until(() => this.#live?.reading?.mass === 0 && this.#live.reading.stability === 'still');
        await sleep(150);
        await this.#simulate({ do: 'put-mass', mass: `${act.grams.toFixed(2)} g` });
        return null;
      case 'command': {
        const { command, reason } = act;
        const told = reason === undefined ? {} : { reason };
        await this.#input({ id: randomUUID(), type: 'command', command, by: 'key', ...told });
        return from;
      }
    }
  }

  #input(input: BenchInput): Promise<Ack> {
    return new Promise((done) => this.#socket.emit('input', input, done));
  }

  #simulate(action: SimulatorAction): Promise<Ack> {
    return new Promise((done) => this.#socket.emit('simulate', action, done));
  }

  /** Waits for a condition, for a while; answers whether it came. */
  async #until(condition: () => boolean, ms = FITS_WITHIN_MS): Promise<boolean> {
    const end = performance.now() + ms;
    while (!condition()) {
      const left = end - performance.now();
      if (left <= 0) return false;
      await new Promise<void>((changed) => {
        this.#changed = changed;
        setTimeout(changed, Math.min(left, 50));
      });
    }
    return true;
  }
}
