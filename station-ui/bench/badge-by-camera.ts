import { mayBeBadge } from '#shared/codes/may-be-badge.ts';
import type { CodeAnswer } from '#shared/wire/events.ts';

/** A badge that is still in sight is no second try; after so long it is shown on purpose. */
const TRIED_MS = 20_000;

/** Which of the codes before a locked bench's camera is tried as a badge: each once in a while. */
export class BadgeByCamera {
  readonly #triedAt = new Map<string, number>();

  /** @param now milliseconds of a clock that only goes forward */
  ask(text: string, now: number): CodeAnswer {
    const before = this.#triedAt.get(text) ?? -Infinity;
    const known = mayBeBadge(text) && now - before >= TRIED_MS;
    if (known) this.#triedAt.set(text, now);
    return { ok: true, known };
  }
}
