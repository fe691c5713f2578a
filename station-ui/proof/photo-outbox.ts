import type { Ack } from '#shared/wire/events.ts';
import type { PhotoSent } from '#shared/wire/proof.ts';
import type { PhotoShelf, WaitingPhoto, WithoutAgo } from './photo-shelf.ts';

export interface OutboxParts {
  readonly bench: string;
  readonly shelf: PhotoShelf;
  /** null when no acknowledgement came in time */
  readonly send: (photo: PhotoSent) => Promise<Ack | null>;
  readonly now: () => number;
  readonly wait: (milliseconds: number) => Promise<void>;
  /** how many wait */
  readonly changed: (waiting: number) => void;
}

/** Photos beyond this are not kept at a tablet, only that there was one: some 40 MB. */
export const MOST_WAITING = 120;
const PAUSE_MS = 1000;
/** After these the station may yet take the same photo; after any other error it never will. */
const WORTH_REPEATING: ReadonlySet<string> = new Set(['store-failed', 'busy', 'signed-out', 'not-paired']);

/** Photos on their way to the station: one at a time, sent again under the same id until each is acknowledged. */
export class PhotoOutbox {
  private linked = false;
  private sending = false;

  constructor(private readonly parts: OutboxParts) {
    void this.tell();
  }

  /** Keeps a photo, and sends it when its turn comes. False where this tablet is full: then only that is kept. */
  async add(photo: WithoutAgo): Promise<boolean> {
    const { shelf, bench, now } = this.parts;
    const full = (await this.own()).length >= MOST_WAITING;
    const { id, run, parcel, what } = photo;
    const kept = full && 'jpeg' in photo ? ({ id, run, parcel, what, missed: 'tablet-full' } as const) : photo;
    await shelf.put({ bench, takenAt: now(), photo: kept });
    await this.tell();
    void this.flush();
    return kept === photo;
  }

  /** Tells whether the link to the station is up. */
  link(up: boolean): void {
    this.linked = up;
    if (up) void this.flush();
  }

  private async flush(): Promise<void> {
    if (this.sending) return;
    this.sending = true;
    try {
      while (this.linked) {
        const [next] = await this.own();
        if (next === undefined) return;
        await this.deliver(next);
      }
    } finally {
      this.sending = false;
    }
  }

  private async deliver({ photo, takenAt }: WaitingPhoto): Promise<void> {
    const ago = Math.max(0, this.parts.now() - takenAt);
    const ack = await this.parts.send({ ...photo, ago });
    if (ack === null || (!ack.ok && WORTH_REPEATING.has(ack.error))) {
      await this.parts.wait(PAUSE_MS);
      return;
    }
    await this.parts.shelf.remove(photo.id);
    await this.tell();
  }

  private async own(): Promise<readonly WaitingPhoto[]> {
    return (await this.parts.shelf.all()).filter(({ bench }) => bench === this.parts.bench);
  }

  private async tell(): Promise<void> {
    this.parts.changed((await this.own()).length);
  }
}
