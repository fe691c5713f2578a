/** What a benchmark may be told on the command line. */
export interface BenchOptions {
  /** everything, however long it takes */
  readonly whole: boolean;
  /** a folder with a recorded set to measure with, in place of the made one */
  readonly set: string | null;
  /** only what has one of these in its name, where a benchmark can be measured in parts; empty: all */
  readonly only: readonly string[];
}
