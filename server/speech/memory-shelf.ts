/** Sounds kept in memory, the ones asked for longest ago thrown out first. */
export class MemoryShelf {
  readonly #most: number;
  readonly #kept = new Map<string, Buffer>();
  #bytes = 0;

  constructor(mostBytes: number) {
    this.#most = mostBytes;
  }

  get bytes(): number {
    return this.#bytes;
  }

  get(key: string): Buffer | null {
    const found = this.#kept.get(key);
    if (found === undefined) return null;
    this.#kept.delete(key);
    this.#kept.set(key, found);
    return found;
  }

  put(key: string, sound: Buffer): void {
    if (sound.length > this.#most || this.#kept.has(key)) return;
    this.#kept.set(key, sound);
    this.#bytes += sound.length;
    for (const [oldest, { length }] of this.#kept) {
      if (this.#bytes <= this.#most) return;
      this.#kept.delete(oldest);
      this.#bytes -= length;
    }
  }
}
