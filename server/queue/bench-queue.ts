import { DoneToday } from './done-today.ts';
import type { OrderQueue } from './order-queue.ts';
import type { Queued } from './waiting-orders.ts';
import type { Clock } from '#server/clock.ts';
import { carrierName } from '#server/office/hand-over/carriers.ts';
import { instantOf, wallTimeAt } from '#server/office/local-time.ts';
import { lastOrderSeconds, storeChanges } from '#server/store/day.ts';
import type { Store } from '#server/store/open.ts';
import { countInHand } from '#server/store/orders.ts';
import { touchesOf } from '#server/store/touches.ts';
import { atRisk } from '#shared/day-board/counts.ts';
import { paceOf, type Pace } from '#shared/day-board/pace.ts';
import type { RunState } from '#shared/run/types.ts';
import { whyNext } from '#shared/queue/choice.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { DayBench } from '#shared/wire/day.ts';
import type { BenchView, NextOrder } from '#shared/wire/views.ts';
import type { Localised } from '#shared/words/language.ts';

export interface BenchQueueParts {
  readonly store: Store;
  readonly shop: () => Shop;
  readonly clock: Clock;
  readonly queue: OrderQueue;
  readonly stations: ReadonlyMap<
    string,
    {
      readonly bench: { readonly name: string };
      readonly run: { readonly state: RunState };
      readonly help: { readonly open: boolean };
    }
  >;
  /** benches that other servers serve */
  readonly elsewhere?: () => readonly DayBench[];
}

const QUEUE_SHOWN = 8;
const PACE_FROM_ORDERS = 60;
/** Time alone makes orders late. */
const COUNTED_ANEW_AFTER_MS = 5000;
const PACE_ANEW_AFTER_MS = 30_000;

/** The queue and the day as benches show them. The counts are the same for all, so they are made once for each change. */
export class BenchQueue {
  readonly #parts: BenchQueueParts;
  #counted: { readonly changes: string; readonly at: number; readonly day: BenchView['day'] } | null = null;
  readonly #done: DoneToday;
  #pace: { readonly at: number; readonly pace: Pace } | null = null;

  constructor(parts: BenchQueueParts) {
    this.#parts = parts;
    this.#done = new DoneToday(touchesOf(parts.store) === null);
  }

  async day(): Promise<BenchView['day']> {
    const { store, clock } = this.#parts;
    const now = clock.now();
    const changes = touchesOf(store)?.of('shop_order', 'parcel', 'folded_ahead') ?? (await storeChanges(store));
    const { at = 0, changes: seen } = this.#counted ?? {};
    if (this.#counted !== null && seen === changes && Math.abs(now - at) < COUNTED_ANEW_AFTER_MS) {
      return this.#counted.day;
    }
    const day = await this.#count(now);
    this.#counted = { changes, at: now, day };
    return day;
  }

  async #count(now: number): Promise<BenchView['day']> {
    const { store, queue } = this.#parts;
    const { timeZone } = this.#parts.shop();
    const { open, collections } = await queue.counted(store);
    const inHand = await countInHand(store);
    const today = instantOf({ ...wallTimeAt(now, timeZone), hour: 0, minute: 0 }, timeZone);
    const working = [...this.#parts.stations.values()].filter(({ run }) => {
      const { packer, order } = run.state;
      return packer !== null || order !== null;
    });
    return {
      waiting: open,
      setAside: inHand['set-aside'],
      done: await this.#done.since(store, today),
      ...atRisk(collections, inHand.packing, {
        benches: Math.max(1, working.length),
        pace: await this.#paceAt(now),
        now,
      }),
    };
  }

  async #paceAt(now: number): Promise<Pace> {
    if (this.#pace !== null && Math.abs(now - this.#pace.at) < PACE_ANEW_AFTER_MS) return this.#pace.pace;
    const pace = paceOf(await lastOrderSeconds(this.#parts.store, PACE_FROM_ORDERS));
    this.#pace = { at: now, pace };
    return pace;
  }

  /** Names of the other benches where help is asked for. */
  helpWanted(bench: string): readonly string[] {
    const here = [...this.#parts.stations].filter(([id, { help }]) => id !== bench && help.open);
    const others = (this.#parts.elsewhere?.() ?? []).filter(({ help }) => help);
    return [
      ...here.map(
        ([
          ,
          {
            bench: { name },
          },
        ]) => name,
      ),
      ...others.map(({ name }) => name),
    ];
  }

  /** The next orders at a bench that has none in hand, and why the first is the first. */
  async next(bench: string): Promise<Required<Pick<BenchView, 'queue' | 'next'>>> {
    const { store, queue, clock } = this.#parts;
    const shop = this.#parts.shop();
    const now = clock.now();
    const { orders, before } = await queue.next(store, bench, QUEUE_SHOWN);
    const shown = orders.map((each) => ({
      id: each.id,
      pieces: each.order.pieces.reduce((sum, line) => sum + line.count, 0),
      shipBy: each.order.shipBy,
      collection: new Date(each.collection).toISOString(),
      container: containerName(shop, each),
      shelf: each.shelf,
      late: each.collection <= now,
    }));
    const [first, second] = orders;
    if (first === undefined) return { queue: shown, next: null };
    const basket = (await queue.foldedAhead(store)).find(
      (each) => each.order === first.id && each.state === 'folded' && each.version === first.version,
    )?.basket;
    const next: NextOrder = {
      order: first.id,
      collection: new Date(first.collection).toISOString(),
      carriers: first.carriers.map((carrier) => carrierName(shop, carrier)),
      minutes: Math.floor((first.collection - now) / 60_000),
      container: containerName(shop, first),
      shelf: first.shelf,
      basket: basket ?? null,
      ...whyNext(first, second, before),
    };
    return { queue: shown, next };
  }
}

function containerName(shop: Shop, { container }: Queued): Localised | null {
  return container === null ? null : (shop.containers.get(container)?.name ?? null);
}
