import type { Worker } from 'node:worker_threads';
import {
  PlanDesk,
  type Asked,
  type Question,
  type FitsJob,
  type Fitted,
  type PlanJob,
  type Planned,
} from './plan-job.ts';
import { plannedFrom, type PortablePlanned } from './portable-plan.ts';
import type { PlanWorkerData } from './plan-worker.ts';
import { portable } from './portable-shop.ts';
import { startThread } from '#server/start-thread.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** Who plans for the server. */
export interface Planner {
  /** @throws when planning itself breaks down; an order that cannot be planned is an answer */
  plan(job: PlanJob): Promise<Planned>;
  /** ids of the containers of an order's plan, one a parcel; null where there is none */
  containers(job: PlanJob): Promise<readonly string[] | null>;
  fits(job: FitsJob): Promise<Fitted>;
  stop(): Promise<void>;
}

/** Plans on the thread that asks: for programs that have nothing else to do meanwhile. */
export function plannerHere(shop: Shop): Planner {
  const desk = new PlanDesk(shop);
  return {
    plan: (job) => Promise.resolve(desk.plan(job)),
    containers: (job) => Promise.resolve(desk.containers(job)),
    fits: (job) => Promise.resolve(desk.fits(job)),
    stop: () => Promise.resolve(),
  };
}

interface Waiting {
  readonly done: (answer: never) => void;
  readonly failed: (error: Error) => void;
  readonly asked: Question;
}

type Answer =
  | { readonly id: number; readonly done: PortablePlanned | readonly string[] | null | Fitted }
  | { readonly id: number; readonly failed: string };

/** For whom a thread plans. */
export interface PlannerManner {
  /** nobody waits for it: it takes what the rest of the machine leaves */
  readonly standsBack?: boolean;
  /** it is there only while there is something to plan, and for so long after */
  readonly endsAfterMs?: number;
  /** what one question may take; the thread that is still at it then is given up, and the question with it */
  readonly longestMs?: number;
  /** what the thread runs */
  readonly source?: URL;
}

/** A plan of ten pieces takes a fifth of a second; on a machine that does much else perhaps ten. */
const LONGEST_MS = 60_000;
/**
 * Twenty times what a thread holds on to. It is less for what it forbids than because V8 lets a heap that may grow to gigabytes
 * grow fourfold before it looks for what nobody needs any more.
 */
const MOST_HEAP_MB = 512;
const PLAN_WORKER = new URL('./plan-worker.ts', import.meta.url);

/** One question took longer than any should: it is given up, others are not. */
export class TooLongError extends Error {
  override readonly name = 'TooLongError';
}

/** For plans that are made ahead: beside it, a bench that waits has a thread of its own, and never waits for one of these. */
export const PLANS_AHEAD: PlannerManner = { standsBack: true, endsAfterMs: 60_000, longestMs: 5 * LONGEST_MS };

/**
 * Plans on a thread of its own, so that the loop which serves benches, scales and scanners is never held up. A thread that
 * dies fails what it was asked; the next question starts another. One that is stuck is given up with the question that it is
 * at, and another one answers the rest.
 */
export class PlannerThread implements Planner {
  readonly #shops: () => Shop;
  /** the shop that the thread has */
  #shop: Shop;
  readonly #waiting = new Map<number, Waiting>();
  #worker: Worker | null;
  #asked = 0;
  #stopped = false;
  readonly #manner: PlannerManner;
  #ends: NodeJS.Timeout | undefined;
  #patience: NodeJS.Timeout | undefined;

  /** @param shops the shop as it is at the time of asking; the thread is given a new one before the question */
  constructor(shops: () => Shop, manner: PlannerManner = {}) {
    this.#shops = shops;
    this.#manner = manner;
    this.#shop = shops();
    this.#worker = manner.endsAfterMs === undefined ? this.#start() : null;
  }

  async plan(job: PlanJob): Promise<Planned> {
    try {
      return plannedFrom(await this.#ask<PortablePlanned>({ id: ++this.#asked, what: 'plan', job }));
    } catch (error) {
      if (!(error instanceof TooLongError)) throw error;
      return { ok: false, code: 'took-too-long', why: error.message, whyNot: [] };
    }
  }

  containers(job: PlanJob): Promise<readonly string[] | null> {
    return this.#ask({ id: ++this.#asked, what: 'containers', job });
  }

  fits(job: FitsJob): Promise<Fitted> {
    return this.#ask({ id: ++this.#asked, what: 'fits', job });
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    clearTimeout(this.#ends);
    clearTimeout(this.#patience);
    await this.#worker?.terminate();
  }

  #ask<Kind extends PortablePlanned | readonly string[] | null | Fitted>(asked: Question): Promise<Kind> {
    return new Promise<Kind>((done, failed) => {
      if (this.#stopped) {
        failed(new Error('planning has stopped'));
        return;
      }
      clearTimeout(this.#ends);
      this.#waiting.set(asked.id, { done, failed, asked });
      if (this.#waiting.size === 1) this.#waitOn();
      this.#keepShop();
      this.#worker ??= this.#start();
      this.#worker.postMessage(asked);
    });
  }

  /** Messages arrive in order: a question that follows is answered for the new shop. */
  #keepShop(): void {
    const shop = this.#shops();
    if (shop === this.#shop) return;
    this.#shop = shop;
    const changed: Asked = { what: 'shop', shop: portable(shop) };
    this.#worker?.postMessage(changed);
  }

  /** For the question that is answered next: they are answered in their order. */
  #waitOn(): void {
    clearTimeout(this.#patience);
    const [first] = this.#waiting.values();
    if (first === undefined) return;
    const { longestMs = LONGEST_MS } = this.#manner;
    this.#patience = setTimeout(() => this.#giveUp(first, longestMs), longestMs);
    this.#patience.unref();
  }

  #giveUp({ asked, failed }: Waiting, longestMs: number): void {
    const stuck = this.#worker;
    this.#waiting.delete(asked.id);
    const seconds = String(longestMs / 1000);
    const about = asked.what === 'fits' ? 'what fits' : `the plan of order ${asked.job.order.id}`;
    failed(new TooLongError(`${about} took longer than ${seconds} s and was given up`));
    this.#worker = this.#waiting.size === 0 ? null : this.#start();
    for (const each of this.#waiting.values()) this.#worker?.postMessage(each.asked);
    this.#waitOn();
    void stuck?.terminate();
  }

  #endLater(): void {
    const { endsAfterMs } = this.#manner;
    if (endsAfterMs === undefined || this.#stopped) return;
    this.#ends = setTimeout(() => {
      const worker = this.#worker;
      this.#worker = null;
      void worker?.terminate();
    }, endsAfterMs);
    this.#ends.unref();
  }

  #start(): Worker {
    const data: PlanWorkerData = { shop: portable(this.#shop), standsBack: this.#manner.standsBack === true };
    const worker = startThread(this.#manner.source ?? PLAN_WORKER, data, { maxOldGenerationSizeMb: MOST_HEAP_MB });
    worker.unref();
    worker.on('message', (answer: Answer) => {
      // What one that was given up had still answered is asked anew.
      if (worker !== this.#worker) return;
      const waiting = this.#waiting.get(answer.id);
      this.#waiting.delete(answer.id);
      if ('failed' in answer) waiting?.failed(new Error(answer.failed));
      else waiting?.done(answer.done as never);
      this.#waitOn();
      if (this.#waiting.size === 0) this.#endLater();
    });
    let why = new Error('the planning thread ended');
    worker.on('error', (error) => {
      why = error instanceof Error ? error : new Error(String(error));
    });
    worker.on('exit', () => {
      if (worker !== this.#worker) return;
      const lost = [...this.#waiting.values()];
      this.#waiting.clear();
      this.#waitOn();
      this.#worker = null;
      for (const { failed } of lost) failed(why);
    });
    return worker;
  }
}
