import type { PhotoDue, PhotoSubject, PhotoTrouble } from '#shared/proof/types.ts';
import type { Eye } from './eye.ts';
import type { WithoutAgo } from './photo-shelf.ts';

export interface PhotoState {
  readonly phase: 'none' | 'opening' | 'counting' | 'taken' | 'missed';
  readonly what: PhotoSubject;
  /** until the picture, while counting */
  readonly seconds: number;
  readonly trouble: PhotoTrouble | null;
  /** what the preview shows */
  readonly stream: MediaStream | null;
}

export const NO_PHOTO: PhotoState = { phase: 'none', what: 'packed', seconds: 0, trouble: null, stream: null };

export interface PhotographerParts {
  readonly open: (lost: () => void) => Promise<Eye | PhotoTrouble>;
  readonly id: () => string;
  readonly keep: (photo: WithoutAgo) => Promise<boolean>;
  readonly wait: (milliseconds: number) => Promise<void>;
  readonly changed: (state: PhotoState) => void;
  /** it was taken */
  readonly sound: () => void;
  /** which photos were dealt with, over reloads */
  readonly memory: { readonly has: (key: string) => boolean; readonly add: (key: string) => void };
}

const COUNT_FROM = 3;
const SECOND_MS = 1000;
const LONGEST_OPENING_MS = 12_000;
/** Then the line makes room. */
const SHOWN_MS = 6000;

const keyOf = ({ run, parcel, what }: PhotoDue): string => `${run}/${String(parcel)}/${what}`;

/**
 * Takes each photo that is due by itself, after a short count, and the moment the packer goes on if that is sooner. Nothing
 * waits for it: what cannot be taken is kept as missed, with the reason.
 */
export class Photographer {
  private state: PhotoState = NO_PHOTO;
  private due: PhotoDue | null = null;
  private eye: Eye | null = null;
  private turn = 0;

  constructor(private readonly parts: PhotographerParts) {}

  /** What is due now, after every view. */
  async seen(due: PhotoDue | null): Promise<void> {
    const before = this.due;
    if (due !== null && before !== null && keyOf(due) === keyOf(before)) return;
    this.due = due;
    if (before !== null) await this.hurry(before);
    if (due === null || keyOf(due) !== (this.due === null ? '' : keyOf(this.due))) return;
    if (!this.parts.memory.has(keyOf(due))) await this.take(due);
  }

  /** The packer wants it once more. */
  async again(): Promise<void> {
    if (this.due !== null && this.state.phase !== 'opening' && this.state.phase !== 'counting')
      await this.take(this.due);
  }

  close(): void {
    this.turn += 1;
    this.letGo();
    this.set(NO_PHOTO);
  }

  private async take(due: PhotoDue): Promise<void> {
    const turn = ++this.turn;
    this.parts.memory.add(keyOf(due));
    this.letGo();
    this.set({ ...NO_PHOTO, phase: 'opening', what: due.what });
    const lost = (): void => {
      if (turn === this.turn && this.state.phase === 'counting') void this.miss(due, 'unplugged');
    };
    const late = this.parts.wait(LONGEST_OPENING_MS).then(() => 'no-picture' as const);
    const opening = this.parts.open(lost);
    const eye = await Promise.race([opening, late]);
    if (turn !== this.turn || typeof eye === 'string') {
      // Opened too late, or for nothing: let go of it whenever it comes.
      void opening.then((opened) => {
        if (typeof opened !== 'string') opened.close();
      });
      if (turn === this.turn && typeof eye === 'string') await this.miss(due, eye);
      return;
    }
    this.eye = eye;
    for (let seconds = COUNT_FROM; seconds > 0; seconds--) {
      this.set({ ...NO_PHOTO, phase: 'counting', what: due.what, seconds, stream: eye.stream });
      await this.parts.wait(SECOND_MS);
      if (turn !== this.turn) return;
    }
    await this.shoot(due, eye);
  }

  /** The packer goes on: the picture is taken now, or not at all. */
  private async hurry(before: PhotoDue): Promise<void> {
    const { phase } = this.state;
    if (phase === 'counting' && this.eye !== null) await this.shoot(before, this.eye);
    else if (phase === 'opening') await this.miss(before, 'no-picture');
    this.turn += 1;
    this.letGo();
    this.set(NO_PHOTO);
  }

  private async shoot(due: PhotoDue, eye: Eye): Promise<void> {
    const turn = ++this.turn;
    const taken = await eye.snap().catch(() => 'not-encoded' as const);
    if (typeof taken === 'string') return this.miss(due, taken);
    const kept = await this.parts.keep({ id: this.parts.id(), ...due, jpeg: taken });
    if (turn !== this.turn) return;
    this.letGo();
    if (!kept) {
      this.set({ ...NO_PHOTO, phase: 'missed', what: due.what, trouble: 'tablet-full' });
      return;
    }
    this.parts.sound();
    this.set({ ...NO_PHOTO, phase: 'taken', what: due.what });
    void this.parts.wait(SHOWN_MS).then(() => {
      if (turn === this.turn) this.set(NO_PHOTO);
    });
  }

  private async miss(due: PhotoDue, trouble: PhotoTrouble): Promise<void> {
    this.turn += 1;
    this.letGo();
    this.set({ ...NO_PHOTO, phase: 'missed', what: due.what, trouble });
    await this.parts.keep({ id: this.parts.id(), ...due, missed: trouble });
  }

  private letGo(): void {
    this.eye?.close();
    this.eye = null;
  }

  private set(state: PhotoState): void {
    this.state = state;
    this.parts.changed(state);
  }
}
