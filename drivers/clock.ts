/** Time as the drivers see it: injected, so that a test can advance it. */
export interface Clock {
  /** milliseconds since the epoch */
  now(): number;
  /** Runs the task once after the delay; the returned function cancels it. */
  after(milliseconds: number, task: () => void): () => void;
}

/** The machine's own clock. */
export const systemClock: Clock = {
  now: () => Date.now(),
  after(milliseconds, task) {
    const timer = setTimeout(task, milliseconds);
    return () => clearTimeout(timer);
  },
};
