import { randomUUID } from 'node:crypto';
import type { Previewed } from './import-service.ts';
import type { Clock } from '#server/clock.ts';
import type { ImportPreview } from '#shared/wire/office.ts';

const KEEP_MS = 30 * 60_000;
const SWEEP_AFTER_MS = 1000;
const KEEP_MOST = 50;
const REMEMBER_STORED = 500;
/** in all of them: they lie on the disk, some hundred megabytes of it */
const MOST_RECORDS = 400_000;

interface Held {
  readonly previewed: Previewed;
  readonly at: number;
  readonly needs: readonly string[];
}

/** Previews that wait to be applied, for half an hour. Nothing of them is stored until then. */
export class PreviewShelf {
  readonly #clock: Clock;
  readonly #held = new Map<string, Held>();
  readonly #stored = new Set<string>();

  constructor(clock: Clock) {
    this.#clock = clock;
  }

  /**
   * @param needs previews by whose records this one was judged, as if they were stored
   */
  put(previewed: Previewed, needs: readonly string[] = []): ImportPreview {
    const now = this.#clock.now();
    this.#sweep();
    setTimeout(() => this.#sweep(), KEEP_MS + SWEEP_AFTER_MS).unref();
    for (const id of this.#held.keys()) {
      const records = [...this.#held.values()].reduce((sum, each) => sum + each.previewed.records.length, 0);
      if (this.#held.size < KEEP_MOST && records + previewed.records.length <= MOST_RECORDS) break;
      this.#drop(id);
    }
    const id = randomUUID();
    this.#held.set(id, { previewed, at: now, needs });
    return { ...previewed.preview, id };
  }

  /** What is to be stored before another file; null where one of it is neither here nor stored. */
  before(ids: readonly string[]): readonly Previewed[] | null {
    const found: Previewed[] = [];
    for (const id of ids) {
      const held = this.#fresh(id);
      if (held !== null) found.push(held.previewed);
      else if (!this.#stored.has(id)) return null;
    }
    return found;
  }

  /** Hands a preview out once, to be closed by whoever has it; `needs-others` while what it was judged by is not stored. */
  take(id: string): Previewed | 'gone' | 'needs-others' {
    const held = this.#fresh(id);
    if (held === null) return 'gone';
    if (held.needs.some((each) => !this.#stored.has(each))) return 'needs-others';
    this.#held.delete(id);
    return held.previewed;
  }

  noteStored(id: string): void {
    this.#stored.add(id);
    const [oldest] = this.#stored;
    if (this.#stored.size > REMEMBER_STORED && oldest !== undefined) this.#stored.delete(oldest);
  }

  #sweep(): void {
    const now = this.#clock.now();
    for (const [id, { at }] of this.#held) if (now - at > KEEP_MS) this.#drop(id);
  }

  #fresh(id: string): Held | null {
    const held = this.#held.get(id);
    if (held === undefined || this.#clock.now() - held.at <= KEEP_MS) return held ?? null;
    this.#drop(id);
    return null;
  }

  #drop(id: string): void {
    this.#held.get(id)?.previewed.records.close();
    this.#held.delete(id);
  }
}
