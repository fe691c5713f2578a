import type { Logger } from 'pino';
import type { Namespace, Server } from 'socket.io';
import type { Clock } from '#server/clock.ts';
import { dayBoard } from '#server/office/day-board/board.ts';
import type { Station } from '#server/runs/station.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { storeChanges } from '#server/store/day.ts';
import type { Store } from '#server/store/open.ts';
import { changeBetween } from '#shared/day-board/apply-change.ts';
import type { DayBench, DayBoard, ServerToOffice } from '#shared/wire/day.ts';

export interface OfficeNamespaceParts {
  readonly io: Server;
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly stations: ReadonlyMap<string, Station>;
  /** benches that other servers serve */
  readonly elsewhere?: () => readonly DayBench[];
  readonly clock: Clock;
  readonly log: Logger;
}

const LOOK_EVERY_MS = 400;
/** Time alone changes risks. */
const AT_LEAST_EVERY_MS = 10_000;

/**
 * Shows the day to every office screen: the whole board when it comes, then what became different. The store is asked
 * whether anything was stored; nothing is reckoned while nobody looks.
 */
export class OfficeFeed {
  readonly #parts: OfficeNamespaceParts;
  readonly #namespace: Namespace<Record<string, never>, ServerToOffice>;
  readonly #timer: NodeJS.Timeout;
  #board: DayBoard | null = null;
  #seen = '';
  #madeAt = 0;
  #busy: Promise<void> = Promise.resolve();
  #stopped = false;

  constructor(parts: OfficeNamespaceParts) {
    this.#parts = parts;
    this.#namespace = parts.io.of('/office');
    this.#namespace.on('connection', (socket) => {
      this.#inTurn(async () => {
        this.#board ??= await this.#read();
        socket.emit('day', this.#board);
      });
    });
    this.#timer = setInterval(() => this.#inTurn(() => this.#look()), LOOK_EVERY_MS);
    this.#timer.unref();
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    clearInterval(this.#timer);
    await this.#busy;
  }

  #inTurn(work: () => Promise<void>): void {
    this.#busy = this.#busy
      .then(async () => {
        if (!this.#stopped) await work();
      })
      .catch((error: unknown) => this.#parts.log.error({ error }, 'the day board could not be made'));
  }

  async #look(): Promise<void> {
    if (this.#namespace.sockets.size === 0) {
      this.#board = null;
      return;
    }
    const seen = await this.#mark();
    if (this.#board !== null && seen === this.#seen && Date.now() - this.#madeAt < AT_LEAST_EVERY_MS) return;
    const before = this.#board;
    this.#board = await this.#read();
    if (before === null) this.#namespace.local.emit('day', this.#board);
    else this.#namespace.local.emit('day-change', changeBetween(before, this.#board));
  }

  /** Different whenever the board may be. */
  async #mark(): Promise<string> {
    const { store, stations } = this.#parts;
    const health = [...stations.values()].map(({ devices, run, help }) => [
      run.state.packer,
      help.open,
      ...devices.health().map(({ state }) => state),
    ]);
    return `${await storeChanges(store)} ${JSON.stringify([health, this.#parts.elsewhere?.()])}`;
  }

  async #read(): Promise<DayBoard> {
    const { store, shops, stations, clock } = this.#parts;
    this.#seen = await this.#mark();
    this.#madeAt = Date.now();
    return dayBoard({
      ...{ store, shop: shops.current, stations, now: clock.now() },
      elsewhere: this.#parts.elsewhere?.() ?? [],
    });
  }
}
