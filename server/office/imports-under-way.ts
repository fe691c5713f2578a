/** How many imports are being looked through or stored: what only follows the store waits for their end. */
export class ImportsUnderWay {
  #count = 0;

  get any(): boolean {
    return this.#count > 0;
  }

  async during<Result>(work: () => Promise<Result>): Promise<Result> {
    this.#count += 1;
    try {
      return await work();
    } finally {
      this.#count -= 1;
    }
  }
}
