import { randomUUID } from 'node:crypto';
import { finishedParcel } from './finished-parcel.ts';
import { settleLabel } from './label-due.ts';
import { planJob } from './plan-for.ts';
import { askOver, type TakenFrom } from './take-over.ts';
import { slipBytes } from './slip.ts';
import type { BenchRunDependencies, OutsideEffect } from './bench-run.ts';
import { learnFromClosing, learnFromWeighing, type Seen } from '#server/learning/lessons.ts';
import { blocks, lackingFor } from '#server/people/gate.ts';
import { guidanceFor } from '#server/people/guidance-for.ts';
import { keepPacks } from '#server/people/keep-packs.ts';
import { doubtsToPack } from '#server/office/addresses/doubtful.ts';
import { keepLabelRequest } from '#server/labels/keep-request.ts';
import type { PlanJob, Planned } from '#server/planning/plan-job.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { recordChange } from '#server/store/changes.ts';
import { setAsideOnShelf } from '#server/store/aside.ts';
import { goWithoutInHand } from '#server/office/partial/leave-out.ts';
import { foldedAheadOf, letGoOfFolded, type FoldedPiece } from '#server/store/folded-ahead.ts';
import { combinationOf } from '#server/store/combining.ts';
import { holdClaim } from '#server/store/leases.ts';
import { claimOrder, closeOrder, findOrder, orderWaitingFor, type StoredOrder } from '#server/store/orders.ts';
import { saveParcel, type FinishedParcel } from '#server/store/parcels.ts';
import { findPieces } from '#server/store/pieces.ts';
import { addGuidanceChoice } from '#server/store/packs.ts';
import { addPrintJob, dropWaiting } from '#server/store/print-jobs.ts';
import { withdrawLabelRequests } from '#server/store/label-requests.ts';
import { endRun, startRun } from '#server/store/runs.ts';
import { countDown } from '#server/store/stock.ts';
import { calendarDay } from '#server/calendar.ts';
import { containersIn, usedBy } from '#shared/supplies/used-by-parcel.ts';
import { isFitError } from '#shared/fitting/fit-error.ts';
import { isFoldError } from '#shared/folding/fold-error.ts';
import { isGarmentError } from '#shared/garments/garment-error.ts';
import { UNPLANNED } from '#shared/planning/plan-error.ts';
import type { Order, OrderPlan, ParcelPlan } from '#shared/planning/types.ts';
import type { Skill } from '#shared/people/rules.ts';
import { languageOf } from '#shared/run/view/bench-view.ts';
import { parcelHere } from '#shared/run/here.ts';
import type { Lies, RunEffect, RunFacts, RunInput, RunState } from '#shared/run/types.ts';

/** What came of an effect: inputs for the run to take next, and what is left to do once all is stored. */
export interface Executed {
  readonly follows: readonly RunInput[];
  readonly remains: readonly OutsideEffect[];
  /** to be planned once all is stored, outside the transaction */
  readonly toPlan: ToPlan | null;
  /** the bench whose run goes on here */
  readonly takenFrom?: TakenFrom;
}

/** An order that was claimed for a run, or the parcel at hand, and what planning it needs. */
export type ToPlan =
  | {
      readonly for: 'order';
      readonly run: string;
      readonly job: PlanJob;
      /** the piece whose scan asked for it */
      readonly sku?: string;
      /** how many more orders may be tried in its place; none when it was asked for by name */
      readonly passOver?: number;
    }
  | { readonly for: 'parcel'; readonly job: PlanJob }
  /** an order in hand that goes without a piece */
  | { readonly for: 'shortened'; readonly job: PlanJob; readonly sku: string; readonly follows: string };

const NOTHING: Executed = { follows: [], remains: [], toPlan: null };

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
        await this.#recordRelease(effect, before);
        return this.#endRun(before);
      case 'set-aside': {
        await letGoOfFolded(this.#store, [effect.order]);
        const place = await setAsideOnShelf(this.#store, { order: effect.order, reason: effect.reason, now });
        await this.#endRun(before);
        return { ...NOTHING, follows: [{ type: 'aside-placed', order: effect.order, place }] };
      }
      case 'folded-otherwise':
        await letGoOfFolded(this.#store, [effect.order]);
        return NOTHING;
      case 'order-done':
        await letGoOfFolded(this.#store, [effect.order]);
        await closeOrder(this.#store, { order: effect.order, state: 'packed', reason: null, now });
        await keepPacks(this.#store, state, now);
        return this.#endRun(state);
      case 'parcel-done':
        await this.#parcelDone(state, effect.parcel);
        return NOTHING;
      case 'print-slip':
        return this.#printSlip(effect, state, seq);
      case 'replan':
        return this.#replan(effect, state);
      case 'go-without':
        return this.#goWithout(effect, state);
      case 'read-guidance': {
        const guidance = await this.#guidance(effect.packer, effect.garments);
        return { ...NOTHING, follows: [{ type: 'guidance', guidance }] };
      }
      case 'keep-guidance':
        for (const [kind, level] of Object.entries(effect.levels)) {
          await addGuidanceChoice(this.#store, { person: effect.packer, kind, level, at: now });
        }
        return NOTHING;
      case 'weigh-invented':
        return NOTHING;
      case 'begin-practice':
      case 'begin-side-work':
      case 'zero-scale':
      case 'call-help':
        return { ...NOTHING, remains: [effect] };
    }
  }

  /** A weight and a service were settled: where labels are asked for, this parcel's is. */
  async keepLabel(before: RunState, after: RunState): Promise<void> {
    const { shop, bench, asksForLabels = () => shop().labels !== undefined } = this.#dependencies;
    if (!asksForLabels()) return;
    await keepLabelRequest({ store: this.#store, shop: shop(), bench: bench.id, now: this.#facts.now }, before, after);
  }

  async #endRun(state: RunState): Promise<Executed> {
    if (state.run === null) return NOTHING;
    await endRun(this.#store, state.run, this.#facts.now);
    await withdrawLabelRequests(this.#store, state.run, this.#facts.now);
    return NOTHING;
  }

  async #printSlip(
    effect: Extract<RunEffect, { type: 'print-slip' }>,
    state: RunState,
    seq: number,
  ): Promise<Executed> {
    const { now } = this.#facts;
    if (state.run !== null) await dropWaiting(this.#store, state.run, effect.parcel, now);
    const leftOut = (state.order?.leftOut ?? []).map(({ sku }) => sku);
    const titles = await findPieces(this.#store, leftOut);
    const { bytes, replaced } = slipBytes(state, this.#dependencies.shop(), this.#dependencies.bench, titles);
    await addPrintJob(this.#store, {
      bench: this.#dependencies.bench.id,
      run: state.run,
      parcel: effect.parcel,
      bytes,
      replaced: replaced.join(' '),
      now,
    });
    return { ...NOTHING, remains: seq > 0 ? [effect] : [] };
  }

  async #takeOrder(effect: Extract<RunEffect, { type: 'take-order' }>, state: RunState): Promise<Executed> {
    const wanted =
      effect.order ?? (effect.sku === undefined ? undefined : await orderWaitingFor(this.#store, effect.sku));
    if (wanted === null) return refused('piece-not-in-order', effect.sku ?? '');
    return wanted === undefined ? this.#claimNext(PASS_OVER, state) : this.#claimNamed(wanted, state, effect.sku);
  }

  /** Takes the first order of the queue; one that another bench was quicker to take is passed over. */
  async #claimNext(passOver: number, state: RunState): Promise<Executed> {
    const { queue, bench, shop } = this.#dependencies;
    const waiting = passOver === 0 ? [] : (await queue.next(this.#store, bench.id, passOver)).orders;
    let lacking: readonly Skill[] = [];
    for (const { order } of waiting) {
      const lacks = blocks(shop()) ? await this.#lacking(order, state) : [];
      if (lacks.length > 0) {
        lacking = lacks;
        continue;
      }
      const claimed = await this.#claim(order, { passOver });
      if (claimed !== null) return claimed;
    }
    return lacking.length === 0 ? refused('no-order-waiting', '') : this.#skillNeeded(lacking, state, '');
  }

  #lacking(order: Order, { packer }: RunState): Promise<readonly Skill[]> {
    return lackingFor(this.#store, this.#dependencies.shop(), packer, order);
  }

  #skillNeeded(lacking: readonly Skill[], state: RunState, order: string): Executed {
    const language = languageOf(state, this.#dependencies.shop());
    const values = { skill: lacking.map(({ name }) => name[language]).join(', ') };
    return { ...NOTHING, follows: [{ type: 'order-refused', code: 'skill-needed', order, values }] };
  }

  async #claimNamed(id: string, state: RunState, sku: string | undefined): Promise<Executed> {
    const stored = await findOrder(this.#store, id);
    if (stored === null) return refused('code-not-known', id);
    if (stored.state === 'combined') {
      const whole = await combinationOf(this.#store, id);
      return whole === null ? refused('order-not-open', id) : this.#claimNamed(whole, state, sku);
    }
    if (stored.state === 'packing') return this.#askOver(stored, state, sku);
    if ((await foldedAheadOf(this.#store, id))?.state === 'folding') return refused('order-being-folded', id);
    if (stored.state === 'packed' || stored.state === 'cancelled') return refused('order-not-open', id);
    const lacking = blocks(this.#dependencies.shop()) ? await this.#lacking(stored.order, state) : [];
    if (lacking.length > 0) return this.#skillNeeded(lacking, state, id);
    const claimed = await this.#claim(stored.order, sku === undefined ? {} : { sku });
    return claimed ?? this.#takenElsewhere(await findOrder(this.#store, id), id);
  }

  /** Another bench has it in hand: when that one is silent, this one may go on with it. */
  async #askOver(stored: StoredOrder, state: RunState, sku: string | undefined): Promise<Executed> {
    const { bench, shop } = this.#dependencies;
    const parts = { store: this.#store, shop: shop(), bench, facts: this.#facts };
    const { id } = stored.order;
    const asked = await askOver(parts, stored);
    switch (asked.is) {
      case 'held':
        return this.#takenElsewhere(stored, id);
      case 'free':
        return this.#claimNamed(id, state, sku);
      case 'offered': {
        const values = { bench: asked.bench };
        return { ...NOTHING, follows: [{ type: 'order-refused', code: 'bench-silent', order: id, values }] };
      }
      case 'taken':
        return { ...NOTHING, follows: [asked.input], takenFrom: asked.from };
    }
  }

  /** Which bench, so that nobody has to look for it. */
  #takenElsewhere(stored: StoredOrder | null, order: string): Executed {
    const at = stored?.bench ?? null;
    if (at === null) return refused('order-taken-elsewhere', order);
    const bench = this.#dependencies.shop().benches.find(({ id }) => id === at)?.name ?? at;
    return {
      ...NOTHING,
      follows: [{ type: 'order-refused', code: 'order-taken-elsewhere', order, values: { bench } }],
    };
  }

  /** Null when another bench has it. */
  async #claim(order: Order, wish: { readonly sku?: string; readonly passOver?: number }): Promise<Executed | null> {
    const { now } = this.#facts;
    const { bench, shop } = this.#dependencies;
    const run = randomUUID();
    if (!(await claimOrder(this.#store, { order: order.id, bench: bench.id, run, now }))) return null;
    const job = await planJob(this.#store, shop(), order, now, { bench: bench.id });
    return { ...NOTHING, toPlan: { for: 'order', run, job, ...wish } };
  }

  async #replan(effect: Extract<RunEffect, { type: 'replan' }>, state: RunState): Promise<Executed> {
    const parcel = parcelHere(state);
    if (parcel !== undefined) await this.#learn((seen) => this.#closing(parcel, false, seen), state);
    const pieces = [...new Set(effect.pieces)].map((sku) => ({
      sku,
      count: effect.pieces.filter((each) => each === sku).length,
    }));
    const part = { ...effect.order, pieces };
    const { bench, shop } = this.#dependencies;
    const wish = { without: effect.without, bench: bench.id };
    const job = await planJob(this.#store, shop(), part, this.#facts.now, wish);
    return { ...NOTHING, toPlan: { for: 'parcel', job } };
  }

  async #goWithout(effect: Extract<RunEffect, { type: 'go-without' }>, { packer }: RunState): Promise<Executed> {
    const { order, sku } = effect;
    const { bench, shop } = this.#dependencies;
    const divided = await goWithoutInHand(this.#store, { order, sku, by: packer }, this.#facts.now);
    if (divided === null) return { ...NOTHING, follows: [{ type: 'not-shortened', order }] };
    const job = await planJob(this.#store, shop(), divided.first, this.#facts.now, { bench: bench.id });
    return { ...NOTHING, toPlan: { for: 'shortened', job, sku, follows: divided.follows } };
  }

  /** What is left of an order that cannot be planned is set aside with the reason. */
  async #shortened(
    { job: { order }, sku, follows }: Extract<ToPlan, { for: 'shortened' }>,
    planned: Planned,
    state: RunState,
  ): Promise<Executed> {
    if (planned.ok) {
      return { ...NOTHING, follows: [{ type: 'shortened', order, plan: planned.plan, sku, follows }] };
    }
    const { now } = this.#facts;
    await closeOrder(this.#store, { order: order.id, state: 'set-aside', reason: `${UNPLANNED}${planned.code}`, now });
    await this.#endRun(state);
    return { ...NOTHING, follows: [{ type: 'not-shortened', order: order.id, why: planned.code }] };
  }

  /** Goes on with what was planned meanwhile. An order that cannot be planned is set aside with the reason. */
  async planned(asked: ToPlan, planned: Planned, state: RunState): Promise<Executed> {
    if (asked.for === 'parcel') {
      const follow: RunInput = planned.ok ? { type: 'replanned', plan: planned.plan } : { type: 'no-other-plan' };
      return { ...NOTHING, follows: [follow] };
    }
    if (asked.for === 'shortened') return this.#shortened(asked, planned, state);
    const { run, job, sku, passOver } = asked;
    const { order } = job;
    const { now } = this.#facts;
    const bench = this.#dependencies.bench.id;
    if (!(await holdClaim(this.#store, { order: order.id, bench, run }, now))) {
      return refused('order-taken-elsewhere', order.id);
    }
    if (!planned.ok && planned.code === 'no-rates') {
      // A wrong date, or rate cards that have run out: every order would be set aside, one after the other.
      await this.unplanned(asked);
      const told = { code: 'cannot-be-planned', order: order.id, why: planned.code } as const;
      return { ...NOTHING, follows: [{ type: 'order-refused', ...told }] };
    }
    if (!planned.ok) {
      await closeOrder(this.#store, {
        order: order.id,
        state: 'set-aside',
        reason: `${UNPLANNED}${planned.code}`,
        now,
      });
      if (passOver !== undefined) return this.#claimNext(passOver - 1, state);
      const told = { code: 'cannot-be-planned', order: order.id, why: planned.code } as const;
      return { ...NOTHING, follows: [{ type: 'order-refused', ...told }] };
    }
    await startRun(this.#store, {
      id: run,
      order: order.id,
      bench,
      packer: state.packer,
      now,
      compared: planned.compared,
    });
    const kinds = planned.plan.parcels.flatMap((parcel) => parcel.pieces.map(({ piece }) => piece.kind));
    const guidance = await this.#guidance(state.packer, kinds);
    const lacking = (await this.#lacking(order, state)).map(
      ({ name }) => name[languageOf(state, this.#dependencies.shop())],
    );
    const lies = await this.#lies(order, planned.plan);
    const doubtful = (await doubtsToPack(this.#store, order)).length > 0;
    const told = { guidance, lacking, ...(doubtful ? { addressDoubtful: true as const } : {}) };
    const taken = { type: 'order-taken', run, order, plan: planned.plan, ...told } as const;
    const wished = sku === undefined ? taken : { ...taken, sku };
    return { ...NOTHING, follows: [lies === null ? wished : { ...wished, lies }] };
  }

  /** Where the pieces lie that are not on their own shelves, and whether they are folded as the plan wants them. */
  async #lies(order: Order, plan: OrderPlan): Promise<Lies | null> {
    const stored = await findOrder(this.#store, order.id);
    const folded = await foldedAheadOf(this.#store, order.id);
    if (folded?.state === 'folded') {
      const asPlanned = folded.version === stored?.version && isFoldedAs(folded.pieces, plan);
      // What was folded otherwise is folded anew, and no longer lies folded for anybody.
      if (!asPlanned) await letGoOfFolded(this.#store, [order.id]);
      return { at: 'basket', number: folded.basket, folded: asPlanned };
    }
    const place = stored?.asidePlace ?? null;
    return place === null ? null : { at: 'aside', number: place };
  }

  #guidance(packer: string | null, kinds: readonly string[]) {
    return guidanceFor(this.#store, this.#dependencies.shop(), packer, kinds, this.#facts.now);
  }

  /** Gives back what was claimed when planning broke down. */
  async unplanned(asked: ToPlan): Promise<void> {
    if (asked.for !== 'order') return;
    const { now } = this.#facts;
    await closeOrder(this.#store, { order: asked.job.order.id, state: 'open', reason: null, now });
  }

  async #recordRelease({ order, by }: Extract<RunEffect, { type: 'release-order' }>, before: RunState): Promise<void> {
    const { bench } = this.#dependencies;
    const made =
      by === undefined ? ({ who: before.packer, from: 'bench' } as const) : ({ who: by, from: 'office' } as const);
    const change = { what: 'order-released', about: order, details: { bench: bench.id }, ...made } as const;
    await recordChange(this.#store, change, this.#facts.now);
  }

  async #parcelDone(state: RunState, index: number): Promise<void> {
    const done = finishedParcel(state, index, this.#dependencies.bench.id);
    const label = await settleLabel(this.#store, done.parcel, done.label, this.#facts.now);
    await saveParcel(this.#store, done.parcel, label, this.#facts.now);
    const parcel = state.parcels[index];
    if (parcel !== undefined) await this.#countDown(parcel, done.parcel);
    const weighing = state.progress[index]?.weighing;
    if (parcel === undefined || !weighing) return;
    await this.#learn(async (seen) => {
      await learnFromWeighing(this.#store, this.#dependencies.shop(), parcel, weighing, seen);
      await this.#closing(parcel, true, seen);
    }, state);
  }

  /** What the parcel took of the shelf; a pouch in a pouch took two. */
  async #countDown({ container, wrap, pieces }: ParcelPlan, { order, run, number }: FinishedParcel): Promise<void> {
    const { supplies = [], timeZone } = this.#dependencies.shop();
    const containers = containersIn(container.id);
    const used = usedBy({ containers, type: container.type, pieces: pieces.length, wrap: wrap.id }, supplies);
    const { now } = this.#facts;
    const parcel = `${order}/${run}/${String(number)}`;
    await countDown(this.#store, used, { parcel, day: calendarDay(now, timeZone), at: now });
  }

  #closing(parcel: ParcelPlan, closed: boolean, seen: Seen): Promise<void> {
    return learnFromClosing(this.#store, this.#dependencies.shop(), parcel, closed, seen);
  }

  /** A piece that the shop's files can no longer make sense of teaches nothing; the parcel is finished all the same. */
  async #learn(lesson: (seen: Seen) => Promise<void>, { order, run }: RunState): Promise<void> {
    if (order === null || run === null) return;
    try {
      await lesson({ order: order.id, run, now: this.#facts.now });
    } catch (error) {
      if (!isGarmentError(error) && !isFoldError(error) && !isFitError(error)) throw error;
    }
  }
}

/** One parcel of the very pieces, each folded by the same recipe and wrapped in the same. */
function isFoldedAs(folded: readonly FoldedPiece[], { parcels }: OrderPlan): boolean {
  const [parcel, ...others] = parcels;
  if (parcel === undefined || others.length > 0) return false;
  const named = (pieces: readonly FoldedPiece[]) =>
    pieces.map(({ sku, recipe, wrap }) => JSON.stringify([sku, recipe, wrap])).sort();
  const wanted = parcel.pieces.map(({ piece, fold }) => ({
    sku: piece.sku,
    recipe: fold.recipe,
    wrap: parcel.wrap.id,
  }));
  return JSON.stringify(named(folded)) === JSON.stringify(named(wanted));
}

function refused(code: Extract<RunInput, { type: 'order-refused' }>['code'], order: string): Executed {
  return { ...NOTHING, follows: [{ type: 'order-refused', code, order }] };
}
