/** So often a screen has sent it again by then, half a second apart. */
const TIMES = 5;
const MOST_REMEMBERED = 100;

/**
 * Inputs that can never be stored, however often a screen sends them again: what stands behind one at the tablet would wait
 * for ever. One that fails in the same way again and again, while the store takes other things and says nothing of its own,
 * is refused for good.
 */
export class HopelessInputs {
  readonly #failed = new Map<string, { readonly why: string; readonly times: number }>();
  readonly #storeTakes: () => Promise<unknown>;

  /** @param storeTakes writes something else into the store; rejects where that fails */
  constructor(storeTakes: () => Promise<unknown>) {
    this.#storeTakes = storeTakes;
  }

  async failed(id: string, error: unknown): Promise<boolean> {
    // What a store, a database or the system refuses has a code, and may be taken later.
    if (!(error instanceof Error) || 'code' in error) return false;
    const before = this.#failed.get(id);
    const times = before?.why === error.message ? before.times + 1 : 1;
    this.#failed.delete(id);
    this.#failed.set(id, { why: error.message, times });
    const [oldest] = this.#failed.keys();
    if (this.#failed.size > MOST_REMEMBERED && oldest !== undefined) this.#failed.delete(oldest);
    if (times < TIMES) return false;
    return this.#storeTakes().then(
      () => true,
      () => false,
    );
  }
}
