import { statfs } from 'node:fs/promises';
import { monitorEventLoopDelay, type IntervalHistogram } from 'node:perf_hooks';
import { sql } from 'kysely';
import { WriteTrial } from './write-trial.ts';
import type { Clock } from '#server/clock.ts';
import { everyDevice } from '#server/devices/every-device.ts';
import type { LabelDesk } from '#server/labels/label-desk.ts';
import type { Station } from '#server/runs/station.ts';
import type { Store } from '#server/store/open.ts';
import type { HealthPart, HealthReason } from '#shared/wire/inside.ts';

export interface HealthParts {
  readonly store: Store;
  readonly stations: ReadonlyMap<string, Station>;
  readonly labels: Pick<LabelDesk, 'trouble'>;
  readonly ready: () => boolean;
  readonly clock: Clock;
  /** the data folder */
  readonly folder: string;
}

const LEAST_FREE_BYTES = 500_000_000;
const LONGEST_DELAY_MS = 200;

/** How each part of the station is, with a code where it is not well; no name and no address is in it. */
export class Health {
  readonly #parts: HealthParts;
  readonly #writes: WriteTrial;
  readonly #delay: IntervalHistogram = monitorEventLoopDelay({ resolution: 20 });

  constructor(parts: HealthParts) {
    this.#parts = parts;
    this.#writes = new WriteTrial(parts);
    this.#delay.enable();
  }

  async look(): Promise<readonly HealthPart[]> {
    const writes = await this.#writes.look();
    return [
      part('store', [...(await this.#store()), ...writes.store]),
      part('disk', [...(await this.#disk()), ...writes.disk]),
      part('devices', this.#devices()),
      part('prints', await this.#prints()),
      part('labels', this.#parts.labels.trouble === null ? [] : ['labels-not-sent']),
      part('loop', this.#loop()),
    ];
  }

  stop(): void {
    this.#delay.disable();
  }

  async #store(): Promise<readonly HealthReason[]> {
    try {
      await sql`select 1`.execute(this.#parts.store);
      return [];
    } catch {
      return ['store-not-read'];
    }
  }

  async #disk(): Promise<readonly HealthReason[]> {
    try {
      const { bavail, bsize } = await statfs(this.#parts.folder);
      return bavail * bsize < LEAST_FREE_BYTES ? ['disk-nearly-full'] : [];
    } catch {
      return ['disk-not-read'];
    }
  }

  #devices(): readonly HealthReason[] {
    const { stations, ready } = this.#parts;
    const all = ready() ? [...stations.values()].flatMap(everyDevice) : [];
    const reasons = all.flatMap(({ called, health: { state } }): readonly HealthReason[] =>
      state === 'lost' || state === 'silent' || state === 'faulty' ? [`${called}-away`] : [],
    );
    return [...new Set(reasons)];
  }

  async #prints(): Promise<readonly HealthReason[]> {
    try {
      const open = await this.#parts.store
        .selectFrom('print_job')
        .select('id')
        .where('state', '=', 'unknown')
        .limit(1)
        .executeTakeFirst();
      return open === undefined ? [] : ['prints-unsettled'];
    } catch {
      // The store's own part says that it cannot be read.
      return [];
    }
  }

  #loop(): readonly HealthReason[] {
    const p99 = this.#delay.percentile(99) / 1e6;
    this.#delay.reset();
    return p99 > LONGEST_DELAY_MS ? ['loop-held-up'] : [];
  }
}

function part(name: HealthPart['part'], reasons: readonly HealthReason[]): HealthPart {
  return { part: name, state: reasons.length === 0 ? 'ok' : 'degraded', reasons };
}
