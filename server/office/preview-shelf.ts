import { randomUUID } from 'node:crypto';
import type { Previewed } from './import-service.ts';
import type { Clock } from '#server/clock.ts';
import type { ImportPreview } from '#shared/wire/office.ts';

const KEEP_MS = 30 * 60_000;
const KEEP_MOST = 10;
/** in all of them: they are held in memory */
const MOST_RECORDS = 400_000;

/** Previews that wait to be applied, for half an hour. Nothing of them is stored until then. */
export class PreviewShelf {
  readonly #clock: Clock;
  readonly #held = new Map<string, { readonly previewed: Previewed; readonly at: number }>();

  constructor(clock: Clock) {
    this.#clock = clock;
  }

  put(previewed: Previewed): ImportPreview {
    const now = this.#clock.now();
    for (const [id, { at }] of this.#held) if (now - at > KEEP_MS) this.#held.delete(id);
    for (const id of this.#held.keys()) {
      const records = [...this.#held.values()].reduce((sum, each) => sum + each.previewed.records.length, 0);
      if (this.#held.size < KEEP_MOST && records + previewed.records.length <= MOST_RECORDS) break;
      this.#held.delete(id);
    }
    const id = randomUUID();
    this.#held.set(id, { previewed, at: now });
    return { ...previewed.preview, id };
  }

  /** Hands a preview out once. */
  take(id: string): Previewed | null {
    const held = this.#held.get(id);
    this.#held.delete(id);
    return held === undefined || this.#clock.now() - held.at > KEEP_MS ? null : held.previewed;
  }
}
