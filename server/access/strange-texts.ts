import { mayBeBadge } from '#shared/codes/may-be-badge.ts';

/** Different ones of an hour at one bench: many more than are misread or foreign, and far too few to find a badge by trying. */
const MOST = 60;
const FOR_MS = 3_600_000;

/** The texts read at a bench that could be a badge and are nothing that the shop knows: many of them are guesses. */
export class StrangeTexts {
  readonly #seen = new Map<string, number>();

  /**
   * @param now milliseconds of a clock that only goes forward
   * @returns whether there are too many from this one on
   */
  saw(text: string, now: number): boolean {
    if (!mayBeBadge(text) || this.#seen.has(text) || this.tooMany(now)) return false;
    this.#seen.set(text, now);
    return this.tooMany(now);
  }

  tooMany(now: number): boolean {
    for (const [text, at] of this.#seen) if (now - at >= FOR_MS) this.#seen.delete(text);
    return this.#seen.size >= MOST;
  }
}
