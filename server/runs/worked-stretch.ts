import { inputTimes } from '#server/store/runs.ts';
import type { Store } from '#server/store/open.ts';
import { workedOn, type Stretch } from '#shared/care/pause.ts';

/** Before that nothing is looked at for a pause. */
const LONGEST_SHIFT_MS = 12 * 3_600_000;

/** Since when a bench has been at work without a rest: of its inputs only those are read that came since it was asked last. */
export class WorkedStretch {
  readonly #store: Store;
  readonly #bench: string;
  #seq = 0;
  #restMinutes: number | null = null;
  #stretch: Stretch | null = null;

  constructor(store: Store, bench: string) {
    this.#store = store;
    this.#bench = bench;
  }

  async at(now: number, rule: { readonly restMinutes: number }): Promise<Stretch | null> {
    if (rule.restMinutes !== this.#restMinutes) {
      this.#restMinutes = rule.restMinutes;
      this.#seq = 0;
      this.#stretch = null;
    }
    const from = this.#seq;
    const inputs = await inputTimes(this.#store, this.#bench, { after: from, since: now - LONGEST_SHIFT_MS });
    const last = inputs.at(-1);
    // Another view has read them meanwhile.
    if (last === undefined || this.#seq !== from) return this.#stretch;
    this.#seq = last.seq;
    this.#stretch = workedOn(
      this.#stretch,
      inputs.map(({ at }) => at),
      rule,
    );
    return this.#stretch;
  }
}
