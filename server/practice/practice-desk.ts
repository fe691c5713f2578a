import { randomUUID } from 'node:crypto';
import type { Logger } from 'pino';
import { invent, planInvented, type InventionParts } from './invented.ts';
import type { Clock } from '#server/clock.ts';
import type { Planner } from '#server/planning/planner.ts';
import type { Applied } from '#server/runs/bench-run.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import {
  addMark,
  findPracticeInput,
  loadPractice,
  marksOf,
  savePractice,
  signSkill,
  type PracticeSnapshot,
} from '#server/store/practice.ts';
import { NOTHING_KEPT } from '#server/store/planned-parcels.ts';
import { peopleRules } from '#shared/people/rules.ts';
import { practise, type PracticeEffect, type PracticeFacts, type PracticeInput } from '#shared/practice/practise.ts';
import { skillStanding } from '#shared/practice/standing.ts';
import { NO_PRACTICE, type PracticeState } from '#shared/practice/types.ts';
import type { RunFacts } from '#shared/run/types.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';

export interface PracticeDeskParts {
  readonly store: Store;
  readonly shop: () => Shop;
  readonly bench: BenchConfig;
  readonly clock: Clock;
  readonly planner: Pick<Planner, 'plan' | 'fits'>;
  readonly runFacts: () => RunFacts;
  readonly log: Logger;
  readonly onChange: () => void;
  readonly printRecord: (person: string) => Promise<void>;
  readonly callHelp: () => void;
  /** practice is over: who practised stands at the bench now */
  readonly onLeft: (person: string) => void;
}

type Later = Extract<PracticeEffect, { type: 'prepare' | 'replan' | 'print-record' | 'call-help' }>;

/**
 * Practice at one bench: takes inputs one at a time and stores each with the state that it leads to, as a run does, in
 * tables of its own. What is practised with is invented between two inputs.
 */
export class PracticeDesk {
  readonly #parts: PracticeDeskParts;
  #snapshot: PracticeSnapshot = { seq: 0, state: NO_PRACTICE, kept: NOTHING_KEPT };
  #queue: Promise<unknown> = Promise.resolve();

  constructor(parts: PracticeDeskParts) {
    this.#parts = parts;
  }

  /** Picks up where practice was when the server last stopped; what was being invented then is invented anew. */
  async load(): Promise<void> {
    this.#snapshot = await loadPractice(this.#parts.store, this.#parts.bench.id);
    const { screen } = this.state;
    if (screen.at === 'preparing') this.#inBackground({ type: 'prepare', ...screen });
  }

  get state(): PracticeState {
    return this.#snapshot.state;
  }

  get seq(): number {
    return this.#snapshot.seq;
  }

  /** True while the bench practises instead of packing. */
  get active(): boolean {
    return this.state.screen.at !== 'off';
  }

  language(): Language {
    const shop = this.#parts.shop();
    const { person, language } = this.state;
    return language ?? shop.staff.find((each) => each.id === person)?.language ?? shop.language;
  }

  /**
   * Takes one input. The same `id` acts once.
   * @throws when the store fails; then nothing has changed
   */
  apply(input: PracticeInput, id: string = randomUUID()): Promise<Applied> {
    const result = this.#queue.then(() => this.#apply(input, id));
    this.#queue = result.catch(() => undefined);
    return result;
  }

  async settled(): Promise<void> {
    await this.#queue;
  }

  async #apply(input: PracticeInput, id: string): Promise<Applied> {
    const { store, bench, clock, onChange } = this.#parts;
    const known = await findPracticeInput(store, id);
    if (known !== null) return { seq: known, repeated: true, accepted: true };
    const before = this.#snapshot;
    const { state, effects, accepted } = practise(before.state, input, await this.#facts());
    if (!accepted) {
      this.#snapshot = { ...before, state };
      if (state !== before.state) onChange();
      return { seq: before.seq, repeated: false, accepted };
    }
    const next = { ...before, seq: before.seq + 1, state };
    const at = clock.now();
    const kept = await inTransaction(store, async (transaction) => {
      const put = await savePractice(transaction, bench.id, next, { id, input, at });
      for (const effect of effects) {
        if (effect.type === 'mark' && effect.person !== null) {
          await addMark(transaction, effect.person, effect.mark, at);
        }
        if (effect.type === 'sign') await signSkill(transaction, { ...effect, at });
      }
      return put;
    });
    this.#snapshot = { ...next, kept };
    onChange();
    const { person } = before.state;
    if (before.state.screen.at !== 'off' && state.screen.at === 'off' && person !== null) this.#parts.onLeft(person);
    for (const effect of effects) {
      if (effect.type !== 'mark' && effect.type !== 'sign') this.#inBackground(effect);
    }
    return { seq: next.seq, repeated: false, accepted };
  }

  async #facts(): Promise<PracticeFacts> {
    const { store, shop: shopNow, runFacts } = this.#parts;
    const shop = shopNow();
    const { person } = this.state;
    const { skills } = peopleRules(shop);
    const marks = person === null ? [] : await marksOf(store, person);
    return {
      run: runFacts(),
      unit: { mass: shop.units.mass, places: shop.units.massPlaces },
      skills,
      supervisors: shop.staff.filter(({ role }) => role !== 'packer').map(({ id }) => id),
      ready: skills.filter((skill) => skillStanding(skill, marks).ready).map(({ id }) => id),
    };
  }

  #inBackground(effect: Later): void {
    this.#later(effect).catch((error: unknown) => {
      this.#parts.log.error({ error, bench: this.#parts.bench.id }, 'practice could not go on');
      if (effect.type === 'prepare') void this.apply({ type: 'cannot-prepare' }).catch(() => undefined);
      if (effect.type === 'replan') void this.apply({ type: 'replanned', plan: null }).catch(() => undefined);
    });
  }

  async #later(effect: Later): Promise<void> {
    const shop = this.#parts.shop();
    switch (effect.type) {
      case 'prepare': {
        const skill = peopleRules(shop).skills.find(({ id }) => id === effect.skill);
        const made = skill === undefined ? null : await invent(skill, effect.exercise, this.#invention(shop));
        if (made === null) await this.apply({ type: 'cannot-prepare' });
        else if (made.what === 'round') await this.apply({ type: 'round', round: made.round });
        else await this.apply({ type: 'order', order: made.order, plan: made.plan });
        return;
      }
      case 'replan': {
        const { screen } = this.state;
        if (screen.at !== 'guided' || screen.run.order === null) return;
        const { order } = screen.run;
        const pieces = screen.run.parcels.flatMap((parcel) => parcel.pieces.map(({ piece }) => piece));
        const part = { ...order, pieces: order.pieces.filter(({ sku }) => effect.pieces.includes(sku)) };
        await this.apply({
          type: 'replanned',
          plan: await planInvented(part, pieces, effect.without, this.#invention(shop)),
        });
        return;
      }
      case 'print-record':
        await this.#parts.printRecord(effect.person);
        return;
      case 'call-help':
        this.#parts.callHelp();
    }
  }

  #invention(shop: Shop): InventionParts {
    const { planner, clock, runFacts } = this.#parts;
    return { shop, planner, weigh: runFacts().weigh, language: this.language(), now: clock.now() };
  }
}
