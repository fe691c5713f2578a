import { randomUUID } from 'node:crypto';
import { io, type ManagerOptions, type Socket } from 'socket.io-client';
import type { Command } from '#shared/run/commands.ts';
import type {
  Ack,
  BenchInput,
  BenchToServer,
  ServerToBench,
  SimulatorAction,
  SimulatorOffers,
} from '#shared/wire/events.ts';
import type { BenchView, DeviceHealth, LiveScale } from '#shared/wire/views.ts';

/** The station takes two readings that agree; what reaches a screen are some of them. */
const SURELY = 3;

/** A bench screen without a screen: speaks the real socket and remembers the newest of everything. */
export class BenchClient {
  readonly socket: Socket<ServerToBench, BenchToServer>;
  view: BenchView | null = null;
  live: LiveScale | null = null;
  devices: readonly DeviceHealth[] = [];
  offers: SimulatorOffers | null = null;
  #told: () => void = () => undefined;

  constructor(url: string, bench: string, options: Partial<ManagerOptions> = {}) {
    this.socket = io(`${url}/bench`, { auth: { bench }, transports: ['websocket'], forceNew: true, ...options });
    this.socket.on('view', (view) => {
      this.view = view;
      this.#told();
    });
    this.socket.on('scale', (live) => {
      this.live = live;
      this.#told();
    });
    this.socket.on('devices', (health) => (this.devices = health));
    this.socket.on('simulator', (offers) => (this.offers = offers));
  }

  close(): void {
    this.socket.disconnect();
    this.#told();
  }

  /** Once the next view or reading has come, or so many ms are over. */
  told(ms: number): Promise<void> {
    return new Promise((done) => {
      const timer = setTimeout(done, ms);
      this.#told = () => {
        clearTimeout(timer);
        done();
      };
    });
  }

  input(input: BenchInput): Promise<Ack> {
    return this.#delivered((done) => this.socket.emit('input', input, done));
  }

  command(command: Command, by: 'touch' | 'key' | 'voice' = 'voice'): Promise<Ack> {
    return this.input({ id: randomUUID(), type: 'command', command, by });
  }

  simulate(action: SimulatorAction): Promise<Ack> {
    return this.#delivered((done) => this.socket.emit('simulate', action, done));
  }

  /** As a bench's page does: what was on the way when the link broke is delivered again once it is back. */
  #delivered(deliver: (done: (ack: Ack) => void) => void): Promise<Ack> {
    return new Promise((acknowledged) => {
      const again = () => this.socket.once('connect', send);
      const send = () =>
        deliver((ack) => {
          this.socket.off('disconnect', again).off('connect', send);
          acknowledged(ack);
        });
      this.socket.on('disconnect', again);
      send();
    });
  }

  /** Waits until the newest of everything satisfies a condition. */
  async until<Found>(
    condition: (client: this) => Found | false | null | undefined,
    what: string,
    ms = 20_000,
  ): Promise<Found> {
    const end = Date.now() + ms;
    for (;;) {
      const found = condition(this);
      if (found !== false && found !== null && found !== undefined) return found;
      if (Date.now() > end) {
        throw new Error(
          `waited in vain for ${what}; the view is ${JSON.stringify({ task: this.view?.task.at, notice: this.view?.notice, live: this.live, devices: this.devices })}`,
        );
      }
      await new Promise((soon) => setTimeout(soon, 15));
    }
  }

  /** Takes everything off the simulated scale and waits until the pan was surely seen empty and still. */
  async emptyPan(): Promise<void> {
    const ack = await this.simulate({ do: 'empty-pan' });
    if (!ack.ok) throw new Error(ack.message);
    const empty = new Set<number>();
    await this.until(({ live }) => {
      const reading = live?.reading;
      if (reading?.mass === 0 && reading.stability === 'still') empty.add(reading.at);
      else empty.clear();
      return empty.size >= SURELY;
    }, 'an empty pan');
  }

  /** The text of a code that the simulated scanner offers; the offers come after the view that they belong to. */
  offered(which: string): Promise<string> {
    return this.until(
      ({ offers }) => offers?.codes.find(({ label }) => label === which)?.text,
      `${which} among the codes`,
    );
  }

  at(task: BenchView['task']['at']): Promise<BenchView> {
    return this.until((client) => client.view?.task.at === task && client.view, `the task ${task}`);
  }
}
