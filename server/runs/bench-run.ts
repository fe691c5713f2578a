import { randomUUID } from 'node:crypto';
import { labelDue } from './label-due.ts';
import { meaningOf } from './meaning.ts';
import { planJob } from './plan-for.ts';
import { EffectsInStore, type ToPlan } from './effects.ts';
import type { Clock } from '#server/clock.ts';
import type { Planned } from '#server/planning/plan-job.ts';
import type { Metrics } from '#server/metrics/metrics.ts';
import type { Planner } from '#server/planning/planner.ts';
import type { OrderQueue } from '#server/queue/order-queue.ts';
import { inSharedCommit } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import { findOrder } from '#server/store/orders.ts';
import { holdClaim, type Claim } from '#server/store/leases.ts';
import { labelIsUsed } from '#server/store/parcels.ts';
import { NOTHING_KEPT, ParcelShelf } from '#server/store/planned-parcels.ts';
import { findInput, lastInput, loadBench, saveBench, saveInput, type BenchSnapshot } from '#server/store/runs.ts';
import { numberToLookUp } from '#shared/run/entering.ts';
import { parcelHere } from '#shared/run/here.ts';
import { IDLE } from '#shared/run/initial.ts';
import { emptied } from '#shared/run/move.ts';
import { notice } from '#shared/run/outcome.ts';
import { transition } from '#shared/run/transition.ts';
import type { Notice, RunEffect, RunFacts, RunInput, RunState, WeighFacts } from '#shared/run/types.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';

/** What remains to be done outside once an input is safely stored. */
export type OutsideEffect = Extract<
  RunEffect,
  { type: 'zero-scale' | 'call-help' | 'print-slip' | 'begin-practice' | 'begin-side-work' }
>;

export interface BenchRunDependencies {
  readonly store: Store;
  readonly shop: () => Shop;
  readonly bench: BenchConfig;
  readonly clock: Clock;
  readonly metrics?: Metrics | undefined;
  readonly planner: Pick<Planner, 'plan'>;
  /** of all benches */
  readonly queue: Pick<OrderQueue, 'next'>;
  /** what this bench's weighing can be wrong by at this moment */
  readonly weighFacts: () => WeighFacts;
  /** whether labels are asked for from outside once a weight is settled; as the shop's files say without it */
  readonly asksForLabels?: () => boolean;
  /** after each stored input, and after a notice that is shown but not stored */
  readonly onChange: () => void;
  readonly onEffects: (effects: readonly OutsideEffect[]) => void;
  /** this bench goes on with what another one had in hand, and that one does not know it yet */
  readonly onTakenOver?: (from: string) => void;
}

/** What this bench had in hand is another's: nothing that it is given for it counts. */
class ClaimLost extends Error {}

/** An input with the id under which it is stored once. */
interface Numbered {
  readonly input: RunInput;
  readonly id: string;
}

export interface Applied {
  /** under which the input itself is stored; what followed from it comes after */
  readonly seq: number;
  /** the same delivery had been stored before */
  readonly repeated: boolean;
  readonly accepted: boolean;
}

/**
 * The run at one bench. Inputs are taken one at a time; each accepted one is stored together with the state it leads to
 * and everything that follows from it in the store, in one transaction, before its number is given out. Only planning lies
 * between two: the first stores the claim, the second what was planned. A claim without a run is released at a start.
 */
export class BenchRun {
  readonly #dependencies: BenchRunDependencies;
  #snapshot: BenchSnapshot = { seq: 0, state: IDLE, kept: NOTHING_KEPT };
  #queue: Promise<unknown> = Promise.resolve();

  constructor(dependencies: BenchRunDependencies) {
    this.#dependencies = dependencies;
  }

  /** Picks up where the bench was when the server last stopped. */
  async load(): Promise<void> {
    const { store, bench } = this.#dependencies;
    this.#snapshot = await loadBench(store, bench.id);
    await this.#letGoOfTaken();
    await this.#planAgain();
  }

  /** The office gave the order to others while this bench was not there: it is nobody's who is not in the store. */
  async #letGoOfTaken(): Promise<void> {
    const { store, bench } = this.#dependencies;
    const { order, run, step } = this.state;
    if (order === null || step.at === 'done') return;
    const stored = await findOrder(store, order.id);
    if (stored?.state === 'packing' && stored.run === run && stored.bench === bench.id) return;
    const state = emptied(this.state, notice('released-by-office', { order: order.id }));
    this.#snapshot = { ...this.#snapshot, state, kept: NOTHING_KEPT };
    await saveBench(store, bench.id, this.#snapshot, new ParcelShelf(store, NOTHING_KEPT));
  }

  /** The server stopped after a container was found too tight and before there was another plan: it is made now. */
  async #planAgain(): Promise<void> {
    const { store, bench } = this.#dependencies;
    const last = await lastInput(store, bench.id);
    if (last?.type !== 'command' || last.command !== 'too-tight') return;
    const { order, tooTight } = this.state;
    const parcel = parcelHere(this.state);
    if (order === null || parcel === undefined) return;
    const facts = this.facts();
    const skus = parcel.pieces.map(({ piece }) => piece.sku);
    const pieces = [...new Set(skus)].map((sku) => ({ sku, count: skus.filter((each) => each === sku).length }));
    const job = await planJob(store, this.#dependencies.shop(), { ...order, pieces }, facts.now, {
      without: tooTight,
      bench: bench.id,
    });
    await this.#plan({ for: 'parcel', job }, facts, []);
  }

  get state(): RunState {
    return this.#snapshot.state;
  }

  get seq(): number {
    return this.#snapshot.seq;
  }

  /** Says that this bench is there, and finds out whether what it has in hand is still its own. */
  beat(): Promise<void> {
    const beaten = this.#queue.then(async () => {
      const { store, clock } = this.#dependencies;
      const claim = this.#claim();
      if (claim !== null && !(await holdClaim(store, claim, clock.now()))) await this.#recall();
    });
    this.#queue = beaten.catch(() => undefined);
    return beaten;
  }

  #claim(): Claim | null {
    const { order, run, step } = this.state;
    if (order === null || run === null || step.at === 'done') return null;
    return { order: order.id, bench: this.#dependencies.bench.id, run };
  }

  /** Somebody else has changed what is stored of this bench. */
  async #recall(): Promise<void> {
    const { store, bench, onChange } = this.#dependencies;
    this.#snapshot = await loadBench(store, bench.id);
    await this.#letGoOfTaken();
    onChange();
  }

  /** What the transition needs to know of the world now. */
  facts(labelUsedBefore = false): RunFacts {
    const { clock, weighFacts, shop } = this.#dependencies;
    return { now: clock.now(), labelUsedBefore, unasked: shop().unasked ?? [], weigh: weighFacts() };
  }

  /**
   * Takes one input. The same `id` acts once, however often it is delivered.
   * @param meantFor the order that was on the screen when it was given: gone to another bench, the input says so and no more
   * @throws when the store fails; then nothing has changed
   */
  apply(input: RunInput, id: string = randomUUID(), meantFor?: string): Promise<Applied> {
    const result = this.#queue.then(() => this.#applyToOwn(input, id, meantFor));
    this.#queue = result.catch(() => undefined);
    void this.#count(input, result);
    return result;
  }

  async #count({ type }: RunInput, result: Promise<Applied>): Promise<void> {
    const { metrics, bench } = this.#dependencies;
    if (metrics === undefined) return;
    const applied = await result.catch(() => null);
    if (applied === null) metrics.input(bench.id, type, 'not-stored');
    else metrics.input(bench.id, type, applied.repeated ? 'repeated' : applied.accepted ? 'taken' : 'refused');
    const told = this.state.notice;
    if (applied?.accepted === false && told !== null) metrics.refusal(told.code);
  }

  /** Tells the packer that an input which nobody waits for was lost, since the store refused it. Nothing is stored. */
  tellNotStored(): void {
    this.tell({ tone: 'stop', code: 'not-stored', values: {} });
  }

  /** Tells the packer something that is no step of the run. Nothing is stored. */
  tell(notice: Notice, lastScan: RunState['lastScan'] = this.state.lastScan): void {
    this.#snapshot = { ...this.#snapshot, state: { ...this.#snapshot.state, notice, lastScan } };
    this.#dependencies.onChange();
  }

  /** Once everything that was given so far is stored. */
  async settled(): Promise<void> {
    await this.#queue;
  }

  async #applyToOwn(input: RunInput, id: string, meantFor: string | undefined): Promise<Applied> {
    const elsewhere = meantFor === undefined ? null : await this.#goneTo(meantFor);
    if (elsewhere === null || (await findInput(this.#dependencies.store, id)) !== null) {
      try {
        return await this.#apply(input, id);
      } catch (error) {
        if (!(error instanceof ClaimLost)) throw error;
        await this.#recall();
      }
    } else this.tell(notice('run-given-over', { order: meantFor ?? '', bench: elsewhere }));
    return { seq: this.seq, repeated: false, accepted: false };
  }

  /** The bench that goes on with an order which this one has not in hand any more; null where none does. */
  async #goneTo(order: string): Promise<string | null> {
    if (this.state.order?.id === order) return null;
    const { store, bench, shop } = this.#dependencies;
    const stored = await findOrder(store, order);
    if (stored?.state !== 'packing' || stored.bench === null || stored.bench === bench.id) return null;
    return shop().benches.find(({ id }) => id === stored.bench)?.name ?? stored.bench;
  }

  async #apply(input: RunInput, id: string): Promise<Applied> {
    const { store, onChange, onEffects } = this.#dependencies;
    const before = this.#snapshot;
    const known = await findInput(store, id);
    if (known !== null) return { seq: known, repeated: true, accepted: true };
    const facts = await this.#factsOf(input);
    const first = transition(before.state, input, facts);
    if (!first.accepted) {
      if (first.state === before.state) return { seq: before.seq, repeated: false, accepted: false };
      this.#snapshot = { ...before, state: first.state };
      onChange();
      return { seq: before.seq, repeated: false, accepted: false };
    }
    const outside: OutsideEffect[] = [];
    let toPlan = await this.#store([{ input, id }], facts, outside);
    // Planning may take a while: the claim is stored, the transaction is not held open.
    while (toPlan !== null) toPlan = await this.#plan(toPlan, facts, outside);
    if (outside.length > 0) onEffects(outside);
    return { seq: before.seq + 1, repeated: false, accepted: true };
  }

  /** Stores inputs with all that follows from them in one transaction; answers what has to be planned next. */
  async #store(inputs: readonly Numbered[], facts: RunFacts, outside: OutsideEffect[]): Promise<ToPlan | null> {
    return this.#inTransaction(facts, outside, () => Promise.resolve({ follows: inputs, toPlan: null }));
  }

  async #plan(asked: ToPlan, facts: RunFacts, outside: OutsideEffect[]): Promise<ToPlan | null> {
    let planned: Planned;
    try {
      planned = await this.#dependencies.planner.plan(asked.job);
    } catch (error) {
      await this.#inTransaction(facts, outside, async (inStore) => {
        await inStore.unplanned(asked);
        return { follows: [], toPlan: null };
      });
      throw error;
    }
    return this.#inTransaction(facts, outside, async (inStore) => {
      const { follows, toPlan } = await inStore.planned(asked, planned, this.#snapshot.state);
      return { follows: follows.map((each) => ({ input: each, id: randomUUID() })), toPlan };
    });
  }

  async #inTransaction(
    facts: RunFacts,
    outside: OutsideEffect[],
    begin: (inStore: EffectsInStore) => Promise<{ follows: readonly Numbered[]; toPlan: ToPlan | null }>,
  ): Promise<ToPlan | null> {
    const { store, bench, onChange } = this.#dependencies;
    const before = this.#snapshot;
    const claim = this.#claim();
    const from = performance.now();
    const done = await inSharedCommit(store, async (transaction) => {
      const remains: OutsideEffect[] = [];
      const takenFrom: string[] = [];
      if (claim !== null && !(await holdClaim(transaction, claim, facts.now))) throw new ClaimLost();
      const inStore = new EffectsInStore(transaction, this.#dependencies, facts);
      const shelf = new ParcelShelf(transaction, before.kept);
      const begun = await begin(inStore);
      let { toPlan } = begun;
      let snapshot = before;
      const waiting = [...begun.follows];
      for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
        const was = snapshot.state;
        const step = transition(was, next.input, facts);
        snapshot = { ...snapshot, seq: snapshot.seq + 1, state: step.state };
        const { seq } = snapshot;
        const run = step.state.run ?? was.run;
        const stored = { bench: bench.id, seq, id: next.id, run, input: next.input, at: facts.now };
        await saveInput(transaction, stored, shelf);
        await inStore.keepLabel(was, step.state);
        for (const effect of step.effects) {
          const executed = await inStore.execute(effect, step.state, snapshot.seq, was);
          waiting.push(...executed.follows.map((each) => ({ input: each, id: randomUUID() })));
          remains.push(...executed.remains);
          if (executed.takenFrom !== undefined) {
            takenFrom.push(executed.takenFrom.bench);
            shelf.know(executed.takenFrom.kept);
          }
          toPlan ??= executed.toPlan;
        }
      }
      if (snapshot === before) return { snapshot, toPlan, remains, takenFrom };
      await saveBench(transaction, bench.id, snapshot, shelf);
      return { snapshot: { ...snapshot, kept: shelf.keptOf(snapshot.state) }, toPlan, remains, takenFrom };
    });
    this.#dependencies.metrics?.committed((performance.now() - from) / 1000);
    outside.push(...done.remains);
    this.#snapshot = done.snapshot;
    if (done.snapshot !== before) onChange();
    for (const from of done.takenFrom) this.#dependencies.onTakenOver?.(from);
    return done.toPlan;
  }

  /** What the transition must know of the label that was scanned, or whose number is confirmed. */
  async #factsOf(input: RunInput): Promise<RunFacts> {
    const { store, shop } = this.#dependencies;
    const number = numberToLookUp(this.state, input);
    const entered = number === null ? null : await meaningOf(number, store, shop());
    const meaning = entered ?? (input.type === 'scan' ? input.meaning : null);
    const isLabel = meaning?.means === 'label';
    const used = isLabel && (await labelIsUsed(store, meaning.number));
    const due = isLabel ? await labelDue(store, this.state) : null;
    return {
      ...this.facts(used),
      ...(due === null ? {} : { labelDue: due }),
      ...(entered === null ? {} : { entered }),
    };
  }
}
