import type { Options } from './options.ts';

/** What a command came to. */
export interface Outcome {
  /** printed with --json */
  readonly document: object;
  /** printed without */
  readonly text: string;
  /** one line each on stderr; any makes the exit 1 */
  readonly complaints: readonly string[];
}

/** The world outside, put in by tests. */
export interface Surroundings {
  /** milliseconds since the epoch */
  readonly now: number;
  /** the config folder when no option names one */
  readonly config: string;
  /** the data folder when no option names one */
  readonly data?: string;
  /** as DATABASE_URL has it; the store is in the data folder without one */
  readonly database?: string | null;
  /** the system's name of whoever gave the command */
  readonly user?: string;
  /** against which file names are resolved */
  readonly workingFolder: string;
  /** everything that comes in */
  readonly stdin: () => Uint8Array;
  /** what the build made of the wire types */
  readonly wire: string;
  /** the product's own config folder, which new shops are begun from */
  readonly templates: string;
}

export interface Command {
  readonly usage: string;
  /** names of the options that take a text */
  readonly options: readonly string[];
  readonly repeatable?: readonly string[];
  /** names of the options that take none */
  readonly flags?: readonly string[];
  /** how many arguments without a name it takes */
  readonly positionals?: number;
  /**
   * of its JSON document, 1 where nothing is said: one more when a field is taken away or means something else; what is added
   * leaves it. null where the document is of a kind that names its own.
   */
  readonly version?: number | null;
  /** @throws CliError */
  readonly run: (options: Options, surroundings: Surroundings) => Outcome | Promise<Outcome>;
}
