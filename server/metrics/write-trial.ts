import { open, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Clock } from '#server/clock.ts';
import type { Store } from '#server/store/open.ts';
import { saveSweepMemory } from '#server/store/sweeps.ts';
import type { HealthReason } from '#shared/wire/inside.ts';

/** Whoever asks more often is told what was found last: anybody may ask, and each trial waits for the disk. */
const TRY_EVERY_MS = 500;
/** Behind an import the turn comes late, and says nothing about the disk. */
const LONGEST_WAIT_MS = 1000;
const ROW = 'write-trial';
const TRIAL_FILE = 'write-trial.tmp';

type Found = Readonly<Record<'store' | 'disk', readonly HealthReason[]>>;

/** Whether the store and the data folder take what is written: tried, since a disk turns read-only under whoever reads. */
export class WriteTrial {
  readonly #store: Store;
  readonly #folder: string;
  readonly #clock: Clock;
  #found: Found = { store: [], disk: [] };
  #triedAt = -Infinity;
  #trying: Promise<void> | null = null;

  constructor({ store, folder, clock }: { readonly store: Store; readonly folder: string; readonly clock: Clock }) {
    this.#store = store;
    this.#folder = folder;
    this.#clock = clock;
  }

  async look(): Promise<Found> {
    if (performance.now() - this.#triedAt >= TRY_EVERY_MS) {
      this.#trying ??= this.#try().finally(() => {
        this.#triedAt = performance.now();
        this.#trying = null;
      });
      await Promise.race([this.#trying, wait(LONGEST_WAIT_MS, undefined, { ref: false })]);
    }
    return this.#found;
  }

  async #try(): Promise<void> {
    const [store, disk] = await Promise.all([
      works(() => saveSweepMemory(this.#store, ROW, { at: this.#clock.now(), heldAt: null })),
      works(() => writeInto(this.#folder)),
    ]);
    this.#found = { store: store ? [] : ['store-not-written'], disk: disk ? [] : ['disk-not-written'] };
  }
}

async function works(attempt: () => Promise<void>): Promise<boolean> {
  try {
    await attempt();
    return true;
  } catch {
    return false;
  }
}

async function writeInto(folder: string): Promise<void> {
  const path = join(folder, TRIAL_FILE);
  const file = await open(path, 'w', 0o600);
  try {
    await file.write('written');
    await file.sync();
  } finally {
    await file.close();
    await rm(path, { force: true });
  }
}
