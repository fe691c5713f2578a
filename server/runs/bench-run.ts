import { randomUUID } from 'node:crypto';
import { EffectsInStore } from './effects.ts';
import type { Clock } from '#server/clock.ts';
import type { Store } from '#server/store/open.ts';
import { labelIsUsed } from '#server/store/parcels.ts';
import { findInput, loadBench, saveBench, saveInput, type BenchSnapshot } from '#server/store/runs.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunEffect, RunFacts, RunInput, RunState, WeighFacts } from '#shared/run/types.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';

/** What remains to be done outside once an input is safely stored. */
export type OutsideEffect = Extract<RunEffect, { type: 'zero-scale' | 'call-help' | 'print-slip' }>;

export interface BenchRunDependencies {
  readonly store: Store;
  readonly shop: () => Shop;
  readonly bench: BenchConfig;
  readonly clock: Clock;
  /** what this bench's weighing can be wrong by at this moment */
  readonly weighFacts: () => WeighFacts;
  /** after each stored input, and after a notice that is shown but not stored */
  readonly onChange: () => void;
  readonly onEffects: (effects: readonly OutsideEffect[]) => void;
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
 * and everything that follows from it in the store, in one transaction, before its number is given out.
 */
export class BenchRun {
  readonly #dependencies: BenchRunDependencies;
  #snapshot: BenchSnapshot = { seq: 0, state: IDLE };
  #queue: Promise<unknown> = Promise.resolve();

  constructor(dependencies: BenchRunDependencies) {
    this.#dependencies = dependencies;
  }

  /** Picks up where the bench was when the server last stopped. */
  async load(): Promise<void> {
    this.#snapshot = await loadBench(this.#dependencies.store, this.#dependencies.bench.id);
  }

  get state(): RunState {
    return this.#snapshot.state;
  }

  get seq(): number {
    return this.#snapshot.seq;
  }

  /** What the transition needs to know of the world now. */
  facts(labelUsedBefore = false): RunFacts {
    const { clock, weighFacts } = this.#dependencies;
    return { now: clock.now(), labelUsedBefore, weigh: weighFacts() };
  }

  /**
   * Takes one input. The same `id` acts once, however often it is delivered.
   * @throws when the store fails; then nothing has changed
   */
  apply(input: RunInput, id: string = randomUUID()): Promise<Applied> {
    const result = this.#queue.then(() => this.#apply(input, id));
    this.#queue = result.catch(() => undefined);
    return result;
  }

  async #apply(input: RunInput, id: string): Promise<Applied> {
    const { store, onChange, onEffects } = this.#dependencies;
    const before = this.#snapshot;
    const known = await findInput(store, id);
    if (known !== null) return { seq: known, repeated: true, accepted: true };
    const facts = this.facts(await this.#labelUsedBefore(input));
    const first = transition(before.state, input, facts);
    if (!first.accepted) {
      if (first.state === before.state) return { seq: before.seq, repeated: false, accepted: false };
      this.#snapshot = { ...before, state: first.state };
      onChange();
      return { seq: before.seq, repeated: false, accepted: false };
    }
    const outside: OutsideEffect[] = [];
    const after = await store.transaction().execute(async (transaction) => {
      const inStore = new EffectsInStore(transaction, this.#dependencies, facts);
      let snapshot = before;
      const waiting: { input: RunInput; id: string }[] = [{ input, id }];
      for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
        const step = next.input === input ? first : transition(snapshot.state, next.input, facts);
        snapshot = { seq: snapshot.seq + 1, state: step.state };
        await saveInput(transaction, {
          bench: this.#dependencies.bench.id,
          seq: snapshot.seq,
          id: next.id,
          run: step.state.run ?? before.state.run,
          input: next.input,
          at: facts.now,
        });
        for (const effect of step.effects) {
          const { follows, remains } = await inStore.execute(effect, step.state, snapshot.seq, before.state);
          waiting.push(...follows.map((each) => ({ input: each, id: randomUUID() })));
          outside.push(...remains);
        }
      }
      await saveBench(transaction, this.#dependencies.bench.id, snapshot);
      return snapshot;
    });
    this.#snapshot = after;
    onChange();
    if (outside.length > 0) onEffects(outside);
    return { seq: before.seq + 1, repeated: false, accepted: true };
  }

  async #labelUsedBefore(input: RunInput): Promise<boolean> {
    if (input.type !== 'scan' || input.meaning.means !== 'label') return false;
    return labelIsUsed(this.#dependencies.store, input.meaning.number);
  }
}
