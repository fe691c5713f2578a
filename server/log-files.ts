import { readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pino, type DestinationStream } from 'pino';

export const LOG_FILE = 'server.log';
const EARLIER = /^server\.log\.(\d{8}T\d{6}Z)(-\d+)?$/;
/** A log that grows larger is put aside and begun anew. */
const LARGEST_BYTES = 5_000_000;
const MEGABYTE = 1_000_000;

/** An earlier part of the log: until when it was written, by the clock. */
export interface EarlierLog {
  readonly path: string;
  readonly until: number;
  readonly bytes: number;
}

/** Earlier parts of the log of a data folder, the oldest first. */
export function earlierLogs(folder: string): readonly EarlierLog[] {
  return readdirSync(folder)
    .flatMap((name): readonly EarlierLog[] => {
      const [, stamp = ''] = EARLIER.exec(name) ?? [];
      const until = Date.parse(stamp.replace(/^(....)(..)(..)T(..)(..)(..)Z$/, '$1-$2-$3T$4:$5:$6Z'));
      const path = join(folder, name);
      const bytes = Number.isNaN(until) ? undefined : statSync(path, { throwIfNoEntry: false })?.size;
      return bytes === undefined ? [] : [{ path, until, bytes }];
    })
    .sort((one, other) => one.until - other.until || one.path.localeCompare(other.path, 'en', { numeric: true }));
}

/**
 * The log as files of the data folder: one that is written, and earlier parts of it beside, which together never take more
 * than the shop gives them. Size is bounded while it is written, since whatever fills a log fills it in minutes.
 */
export class LogFiles implements DestinationStream {
  readonly folder: string;
  readonly #now: () => number;
  readonly #written: ReturnType<typeof pino.destination>;
  #bytes: number;
  #mostBytes: number;
  readonly #largest: number;

  /** @throws the system's error where the folder cannot be written to */
  constructor(folder: string, megabytes: number, now: () => number = Date.now, largest = LARGEST_BYTES) {
    this.folder = folder;
    this.#now = now;
    this.#largest = largest;
    this.#mostBytes = megabytes * MEGABYTE;
    const path = join(folder, LOG_FILE);
    this.#bytes = statSync(path, { throwIfNoEntry: false })?.size ?? 0;
    this.#written = pino.destination({ dest: path, sync: true });
    // What cannot be logged, as on a full disk, waits for the next line; nothing else must stop for it.
    this.#written.on('error', () => undefined);
    this.#bound();
  }

  write(line: string): void {
    if (this.#bytes + line.length > this.#largest) this.begin();
    this.#written.write(line);
    this.#bytes += Buffer.byteLength(line);
  }

  /** Puts what was written aside and begins anew; nothing where nothing was. */
  begin(): void {
    if (this.#bytes === 0) return;
    try {
      this.#written.flushSync();
      renameSync(join(this.folder, LOG_FILE), this.#freeName());
      this.#written.reopen();
      this.#bytes = 0;
      this.#bound();
    } catch {
      // On a disk that is full or read-only the log goes on as it is, for as much again.
      this.#bytes = 1;
    }
  }

  /** @param megabytes that all parts together may take from now on */
  setMost(megabytes: number): void {
    this.#mostBytes = megabytes * MEGABYTE;
    this.#bound();
  }

  /** Removes earlier parts that were written to their end before a moment. @returns how many */
  removeBefore(before: number): number {
    const old = earlierLogs(this.folder).filter(({ until }) => until < before);
    for (const { path } of old) rmSync(path, { force: true });
    return old.length;
  }

  #freeName(): string {
    const stamp = new Date(this.#now()).toISOString().replace(/[-:]|\.\d+/g, '');
    const taken = new Set(readdirSync(this.folder));
    let name = `${LOG_FILE}.${stamp}`;
    for (let more = 2; taken.has(name); more++) name = `${LOG_FILE}.${stamp}-${String(more)}`;
    return join(this.folder, name);
  }

  /** The oldest go first, whatever the clock says now. */
  #bound(): void {
    const earlier = earlierLogs(this.folder);
    // What is written may grow to its largest beside them.
    let over = earlier.reduce((sum, { bytes }) => sum + bytes, 0) + this.#largest - this.#mostBytes;
    for (const { path, bytes } of earlier) {
      if (over <= 0) return;
      rmSync(path, { force: true });
      over -= bytes;
    }
  }
}
