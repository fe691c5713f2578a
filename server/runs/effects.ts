import { randomUUID } from 'node:crypto';
import { finishedParcel } from './finished-parcel.ts';
import { planFor } from './plan-for.ts';
import { slipBytes } from './slip.ts';
import type { BenchRunDependencies, OutsideEffect } from './bench-run.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { claimOrder, closeOrder, findOrder, openOrders, orderWaitingFor } from '#server/store/orders.ts';
import { saveParcel } from '#server/store/parcels.ts';
import { addPrintJob, dropWaiting } from '#server/store/print-jobs.ts';
import { endRun, startRun } from '#server/store/runs.ts';
import type { RunEffect, RunFacts, RunInput, RunState } from '#shared/run/types.ts';

/** What came of an effect: inputs for the run to take next, and what is left to do once all is stored. */
interface Executed {
  readonly follows: readonly RunInput[];
  readonly remains: readonly OutsideEffect[];
}

const NOTHING: Executed = { follows: [], remains: [] };

/** How many orders that cannot be planned are passed over before a bench is told so. */
const PASS_OVER = 20;

/** Executes the effects of a run that belong to the store, inside the transaction that stores the input itself. */
export class EffectsInStore {
  readonly #store: StoreOrTransaction;
  readonly #dependencies: BenchRunDependencies;
  readonly #facts: RunFacts;

  constructor(store: StoreOrTransaction, dependencies: BenchRunDependencies, facts: RunFacts) {
    this.#store = store;
    this.#dependencies = dependencies;
    this.#facts = facts;
  }

  /**
   * @param state what the run has become
   * @param before what it was, for effects that end it
   */
  async execute(effect: RunEffect, state: RunState, seq: number, before: RunState): Promise<Executed> {
    const { now } = this.#facts;
    switch (effect.type) {
      case 'take-order':
        return this.#takeOrder(effect, state);
      case 'release-order':
        await closeOrder(this.#store, { order: effect.order, state: 'open', reason: null, now });
        return this.#endRun(before);
      case 'set-aside':
        await closeOrder(this.#store, { order: effect.order, state: 'set-aside', reason: effect.reason, now });
        return this.#endRun(before);
      case 'order-done':
        await closeOrder(this.#store, { order: effect.order, state: 'packed', reason: null, now });
        return this.#endRun(state);
      case 'parcel-done': {
        const done = finishedParcel(state, effect.parcel, this.#dependencies.bench.id);
        await saveParcel(this.#store, done.parcel, done.label, now);
        return NOTHING;
      }
      case 'print-slip':
        return this.#printSlip(effect, state, seq);
      case 'replan':
        return this.#replan(effect);
      case 'zero-scale':
      case 'call-help':
        return { follows: [], remains: [effect] };
    }
  }

  async #endRun(state: RunState): Promise<Executed> {
    if (state.run !== null) await endRun(this.#store, state.run, this.#facts.now);
    return NOTHING;
  }

  async #printSlip(
    effect: Extract<RunEffect, { type: 'print-slip' }>,
    state: RunState,
    seq: number,
  ): Promise<Executed> {
    const { now } = this.#facts;
    if (state.run !== null) await dropWaiting(this.#store, state.run, effect.parcel, now);
    const { bytes, replaced } = slipBytes(state, this.#dependencies.shop(), this.#dependencies.bench);
    await addPrintJob(this.#store, {
      bench: this.#dependencies.bench.id,
      run: state.run,
      parcel: effect.parcel,
      bytes,
      replaced: replaced.join(' '),
      now,
    });
    return { follows: [], remains: seq > 0 ? [effect] : [] };
  }

  async #takeOrder(effect: Extract<RunEffect, { type: 'take-order' }>, state: RunState): Promise<Executed> {
    const wanted =
      effect.order ?? (effect.sku === undefined ? undefined : await orderWaitingFor(this.#store, effect.sku));
    if (wanted === null) return refused('piece-not-in-order', effect.sku ?? '');
    if (wanted !== undefined) return this.#takeNamed(wanted, state, effect.sku);
    for (const { order } of await openOrders(this.#store, PASS_OVER)) {
      const taken = await this.#take(order.id, state, undefined);
      if (taken !== null) return taken;
    }
    return refused('no-order-waiting', '');
  }

  async #takeNamed(id: string, state: RunState, sku: string | undefined): Promise<Executed> {
    const stored = await findOrder(this.#store, id);
    if (stored === null) return refused('code-not-known', id);
    if (stored.state === 'packing') return refused('order-taken-elsewhere', id);
    if (stored.state === 'packed' || stored.state === 'cancelled') return refused('order-not-open', id);
    return (await this.#take(id, state, sku)) ?? refused('cannot-be-planned', id);
  }

  /** Claims and plans an order; null when it cannot be planned, and then it is set aside with the reason. */
  async #take(id: string, state: RunState, sku: string | undefined): Promise<Executed | null> {
    const { now } = this.#facts;
    const { bench } = this.#dependencies;
    const run = randomUUID();
    if (!(await claimOrder(this.#store, { order: id, bench: bench.id, run, now }))) {
      return refused('order-taken-elsewhere', id);
    }
    const stored = await findOrder(this.#store, id);
    if (stored === null) return null;
    const planned = await planFor(this.#store, this.#dependencies.shop(), stored.order, now);
    if (!planned.ok) {
      await closeOrder(this.#store, { order: id, state: 'set-aside', reason: planned.why, now });
      return null;
    }
    await startRun(this.#store, { id: run, order: id, bench: bench.id, packer: state.packer, now });
    const taken = { type: 'order-taken', run, order: stored.order, plan: planned.plan } as const;
    return { follows: [sku === undefined ? taken : { ...taken, sku }], remains: [] };
  }

  async #replan(effect: Extract<RunEffect, { type: 'replan' }>): Promise<Executed> {
    const pieces = [...new Set(effect.pieces)].map((sku) => ({
      sku,
      count: effect.pieces.filter((each) => each === sku).length,
    }));
    const part = { ...effect.order, pieces };
    const planned = await planFor(this.#store, this.#dependencies.shop(), part, this.#facts.now, effect.without);
    return {
      follows: [planned.ok ? { type: 'replanned', plan: planned.plan } : { type: 'no-other-plan' }],
      remains: [],
    };
  }
}

function refused(code: Extract<RunInput, { type: 'order-refused' }>['code'], order: string): Executed {
  return { follows: [{ type: 'order-refused', code, order }], remains: [] };
}
