import type { Clock } from '#server/clock.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import type { TestScan } from '#shared/wire/devices.ts';

/** How long the next scan is waited for; afterwards scans reach the run again. */
const WAIT_MS = 30_000;

/** Catches one scan, to show what it means, instead of giving it to the run. */
export class TestScanner {
  readonly #clock: Clock;
  #state: TestScan = { at: 'off' };

  constructor(clock: Clock) {
    this.#clock = clock;
  }

  state(): TestScan {
    if (this.#state.at === 'waiting' && this.#clock.now() > this.#state.until) this.#state = { at: 'off' };
    return this.#state;
  }

  wait(): TestScan {
    this.#state = { at: 'waiting', until: this.#clock.now() + WAIT_MS };
    return this.#state;
  }

  /** True when the scan was for the trial and must not go on. */
  takes(meaning: ScanMeaning): boolean {
    if (this.state().at !== 'waiting') return false;
    this.#state = { at: 'seen', meaning, seenAt: this.#clock.now() };
    return true;
  }
}
