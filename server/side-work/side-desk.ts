import { randomUUID } from 'node:crypto';
import type { Logger } from 'pino';
import { containerChoices, FEWEST_ORDERS, planBatch, type BatchParts, type PlannedForBatch } from './batch.ts';
import { guidanceFor } from '#server/people/guidance-for.ts';
import type { Applied } from '#server/runs/bench-run.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { asideChoices, setAsideOnShelf } from '#server/store/aside.ts';
import {
  changedSinceHeld,
  holdToFold,
  letGoOfFolded,
  letGoOfUnfolded,
  markFolded,
} from '#server/store/folded-ahead.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import {
  dropBatch,
  findSideInput,
  loadBatch,
  loadSideWork,
  saveBatch,
  saveSideWork,
  type SideSnapshot,
} from '#server/store/side-work.ts';
import type { Guidance } from '#shared/guidance/stops.ts';
import { foldStops } from '#shared/guidance/stops.ts';
import type { PlannedPiece } from '#shared/planning/types.ts';
import type { Notice } from '#shared/run/types.ts';
import { sideWork, type Begins, type SideEffect, type SideFacts, type SideInput } from '#shared/side-work/side-work.ts';
import { NO_SIDE_WORK, type SideState } from '#shared/side-work/types.ts';
import { alongShelves } from '#shared/side-work/walk.ts';

export interface SideDeskParts extends BatchParts {
  readonly log: Logger;
  readonly onChange: () => void;
  /** an order of the set-aside shelf is taken up at this bench */
  readonly takeOrder: (order: string) => Promise<unknown>;
  readonly printList: () => Promise<void>;
  readonly printQueued: () => void;
  readonly callHelp: () => void;
  /** said at the bench when side work is over */
  readonly tell: (notice: Notice) => void;
}

type Later = Extract<SideEffect, { type: 'take-order' | 'prepare' | 'print-list' | 'call-help' }>;
type InStore = Exclude<SideEffect, Later>;

const isInStore = (effect: SideEffect): effect is InStore =>
  effect.type === 'order-folded' || effect.type === 'set-aside' || effect.type === 'end-batch';

/** What is stored in one go: an input, and what goes before it in the store. */
type Make = (transaction: StoreOrTransaction) => Promise<{ readonly input: SideInput; readonly id: string }>;

/**
 * What is done at one bench beside packing: looking through the set-aside shelf, and folding ahead. Inputs are taken one at a
 * time; each is stored with the state that it leads to and with what follows from it, as those of a run are.
 */
export class SideDesk {
  readonly #parts: SideDeskParts;
  #snapshot: SideSnapshot = { seq: 0, state: NO_SIDE_WORK };
  #folds: readonly PlannedPiece[] = [];
  #queue: Promise<unknown> = Promise.resolve();

  constructor(parts: SideDeskParts) {
    this.#parts = parts;
  }

  /** Picks up where it was when the server last stopped; a batch that was being prepared is prepared anew. */
  async load(): Promise<void> {
    const { store, bench } = this.#parts;
    this.#snapshot = await loadSideWork(store, bench.id);
    this.#folds = await loadBatch(store, bench.id);
    const { screen } = this.state;
    if (screen.at === 'preparing') this.#inBackground({ type: 'prepare', container: screen.container });
  }

  get state(): SideState {
    return this.#snapshot.state;
  }

  get seq(): number {
    return this.#snapshot.seq;
  }

  /** True while something other than packing is done here. */
  get active(): boolean {
    return this.state.screen.at !== 'off';
  }

  /** The folds of the batch, by the index that its pieces name. */
  get folds(): readonly PlannedPiece[] {
    return this.#folds;
  }

  async guidance(): Promise<Guidance> {
    const { store, shop, clock } = this.#parts;
    const kinds = this.#folds.map(({ piece }) => piece.kind);
    return guidanceFor(store, shop(), this.state.person, kinds, clock.now());
  }

  /** Shows the set-aside shelf, or the containers that may be folded for, as they are now. */
  begin(what: 'aside-list' | 'fold-ahead', begins: Begins): void {
    this.#begin(what, begins).catch((error: unknown) =>
      this.#parts.log.error({ error, bench: this.#parts.bench.id }, 'a list could not be shown'),
    );
  }

  async #begin(what: 'aside-list' | 'fold-ahead', begins: Begins): Promise<void> {
    if (what === 'aside-list') {
      await this.apply({ type: 'look-at-aside', choices: await asideChoices(this.#parts.store), ...begins });
    } else {
      await this.apply({ type: 'look-at-containers', choices: await containerChoices(this.#parts), ...begins });
    }
  }

  /**
   * Takes one input. The same `id` acts once.
   * @throws when the store fails; then nothing has changed
   */
  apply(input: SideInput, id: string = randomUUID()): Promise<Applied> {
    return this.#inTurn(async () => {
      const known = await findSideInput(this.#parts.store, id);
      if (known !== null) return { seq: known, repeated: true, accepted: true };
      await this.#letGoOfChanged();
      return this.#take(() => Promise.resolve({ input, id }));
    });
  }

  /**
   * Brings what is shown up to what others have changed: orders leave the batch, and the packer is told; a list shows what
   * there is to choose now.
   */
  async refresh(): Promise<void> {
    const { screen, person, language } = this.state;
    if (screen.at === 'walk') await this.#inTurn(() => this.#letGoOfChanged());
    if (screen.at === 'aside') {
      const choices = await asideChoices(this.#parts.store);
      if (differ(choices, screen.choices)) await this.apply({ type: 'look-at-aside', choices, person, language });
    }
    if (screen.at === 'containers') {
      const choices = await containerChoices(this.#parts);
      if (differ(choices, screen.choices)) await this.apply({ type: 'look-at-containers', choices, person, language });
    }
  }

  async settled(): Promise<void> {
    await this.#queue;
  }

  #inTurn<Done>(work: () => Promise<Done>): Promise<Done> {
    const result = this.#queue.then(work);
    this.#queue = result.catch(() => undefined);
    return result;
  }

  async #letGoOfChanged(): Promise<void> {
    const { store, bench } = this.#parts;
    if (this.state.screen.at !== 'walk') return;
    const orders = await changedSinceHeld(store, bench.id);
    if (orders.length === 0) return;
    await this.#take(async (transaction) => {
      await letGoOfFolded(transaction, orders);
      return { input: { type: 'left-batch', orders }, id: randomUUID() };
    });
  }

  async #take(make: Make): Promise<Applied> {
    const { store, bench, clock, onChange } = this.#parts;
    const before = this.#snapshot;
    const facts = await this.#facts();
    const taken = await inTransaction(store, async (transaction) => {
      const { input, id } = await make(transaction);
      // What is prepared comes with new folds; nothing is stopped at before the first of them is fetched.
      const done = sideWork(before.state, input, facts);
      if (!done.accepted) return { ...done, snapshot: { ...before, state: done.state } };
      const at = clock.now();
      let snapshot = { seq: before.seq + 1, state: done.state };
      await saveSideWork(transaction, bench.id, snapshot, { id, input, at });
      for (const effect of done.effects.filter(isInStore)) {
        const follows = await this.#execute(transaction, effect, at);
        if (follows === null) continue;
        snapshot = { seq: snapshot.seq + 1, state: sideWork(snapshot.state, follows, facts).state };
        await saveSideWork(transaction, bench.id, snapshot, { id: randomUUID(), input: follows, at });
      }
      return { ...done, snapshot };
    });
    this.#snapshot = taken.snapshot;
    if (taken.snapshot !== before) onChange();
    const { screen, notice } = this.state;
    if (before.state.screen.at !== 'off' && screen.at === 'off' && notice !== null) this.#parts.tell(notice);
    for (const effect of taken.effects) if (!isInStore(effect)) this.#inBackground(effect);
    return { seq: before.seq + (taken.accepted ? 1 : 0), repeated: false, accepted: taken.accepted };
  }

  async #execute(store: StoreOrTransaction, effect: InStore, now: number): Promise<SideInput | null> {
    const { bench } = this.#parts;
    switch (effect.type) {
      case 'order-folded':
        await markFolded(store, effect.order, now);
        return null;
      case 'set-aside': {
        await letGoOfFolded(store, [effect.order]);
        const place = await setAsideOnShelf(store, { order: effect.order, reason: effect.reason, now });
        return { type: 'aside-placed', order: effect.order, place };
      }
      case 'end-batch':
        await letGoOfUnfolded(store, bench.id);
        await dropBatch(store, bench.id);
        return null;
    }
  }

  async #facts(): Promise<SideFacts> {
    const { clock, shop } = this.#parts;
    const guidance = this.state.screen.at === 'walk' ? await this.guidance() : {};
    const stops = this.#folds.map((planned) => foldStops(planned, guidance));
    return { now: clock.now(), unasked: shop().unasked ?? [], stops };
  }

  #inBackground(effect: Later): void {
    this.#later(effect).catch((error: unknown) => {
      this.#parts.log.error({ error, bench: this.#parts.bench.id }, 'side work could not go on');
      if (effect.type === 'prepare') void this.apply({ type: 'cannot-prepare' }).catch(() => undefined);
    });
  }

  async #later(effect: Later): Promise<void> {
    switch (effect.type) {
      case 'take-order':
        await this.#parts.takeOrder(effect.order);
        return;
      case 'prepare':
        await this.#prepare(await planBatch(this.#parts, effect.container));
        return;
      case 'print-list':
        await this.#parts.printList();
        this.#parts.printQueued();
        return;
      case 'call-help':
        this.#parts.callHelp();
    }
  }

  /** Holds the orders and begins the walk in one transaction: none is held for a batch that never begins. */
  async #prepare(batch: readonly PlannedForBatch[]): Promise<void> {
    const { bench, clock } = this.#parts;
    await this.#inTurn(async () => {
      if (this.state.screen.at !== 'preparing') return;
      let folds: readonly PlannedPiece[] = [];
      await this.#take(async (transaction) => {
        const held = await holdToFold(transaction, bench.id, batch, clock.now());
        const orders = batch.flatMap(({ order, planned }) => {
          const basket = held.get(order);
          return basket === undefined ? [] : [{ order, basket, pieces: planned }];
        });
        if (orders.length < FEWEST_ORDERS) {
          await letGoOfFolded(transaction, [...held.keys()]);
          return { input: { type: 'cannot-prepare' }, id: randomUUID() };
        }
        const walk = alongShelves(orders);
        ({ folds } = walk);
        await saveBatch(transaction, bench.id, folds);
        return { input: { type: 'prepared', pieces: walk.pieces }, id: randomUUID() };
      });
      this.#folds = folds;
      this.#parts.onChange();
    });
  }
}

const differ = (now: unknown, shown: unknown): boolean => JSON.stringify(now) !== JSON.stringify(shown);
