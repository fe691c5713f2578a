/** What a benchmark may be told on the command line. */
export interface BenchOptions {
  /** everything, however long it takes */
  readonly whole: boolean;
  /** a trial: only as much as shows that it works; not kept */
  readonly short: boolean;
  /** a folder for profiles of the server's processor time; none without it */
  readonly profiles: string | undefined;
  /** a folder with a recorded set to measure with, in place of the made one */
  readonly set: string | null;
  /** only what has one of these in its name, where a benchmark can be measured in parts; empty: all */
  readonly only: readonly string[];
}
