import type { Dirent } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { sameStamp, stampOf, type Stamp } from './plain-file.ts';
import type { WaitingFile } from '#shared/wire/incoming.ts';

/** No change for so long: a copy that stalls for longer is taken as it is, and refused or taken again when it goes on. */
const SETTLED_MS = 2000;
/** What holds nothing may only have been created: its content is waited for. */
const EMPTY_SETTLED_MS = 20_000;

export const TAKEN = 'taken';
export const REFUSED = 'refused';

/** What other programs call a file that they are still writing, and what belongs to no import at all. */
const NOT_YET = /^(\.|~\$|desktop\.ini$|thumbs\.db$)|\.(part|partial|tmp|filepart|crdownload|download|new)$/i;

interface Seen {
  readonly stamp: Stamp;
  readonly since: number;
}

export interface ReadyFile {
  readonly name: string;
  readonly since: number;
}

/** Which files of a folder have stopped growing, found by looking at it again and again. */
export class FolderLook {
  readonly #seen = new Map<string, Seen>();

  /** @throws the system's error where the folder cannot be read */
  async look(
    folder: string,
    now: number,
  ): Promise<{ readonly ready: readonly ReadyFile[]; readonly waiting: readonly WaitingFile[] }> {
    const entries = await readdir(folder, { withFileTypes: true });
    const ready: ReadyFile[] = [];
    const waiting: WaitingFile[] = [];
    const names = new Set(entries.map(({ name }) => name));
    for (const name of this.#seen.keys()) if (!names.has(name)) this.#seen.delete(name);
    for (const entry of [...entries].sort((a, b) => (a.name < b.name ? -1 : 1))) {
      if (isOurs(entry) || NOT_YET.test(entry.name)) continue;
      const { name } = entry;
      const stamp = await stampOf(join(folder, name));
      if (stamp === null) {
        if (!entry.isFile()) waiting.push({ name, why: 'no-plain-file' });
        continue;
      }
      const seen = this.#seen.get(name);
      if (seen === undefined || !sameStamp(seen.stamp, stamp) || seen.since > now) {
        this.#seen.set(name, { stamp, since: now });
        waiting.push({ name, why: 'growing' });
      } else if (now - seen.since < (stamp.size === 0 ? EMPTY_SETTLED_MS : SETTLED_MS)) {
        waiting.push({ name, why: 'growing' });
      } else ready.push({ name, since: seen.since });
    }
    return { ready, waiting };
  }

  /** What was changed while it was read is waited for anew. */
  forget(name: string): void {
    this.#seen.delete(name);
  }
}

const isOurs = (entry: Dirent): boolean => entry.isDirectory() && (entry.name === TAKEN || entry.name === REFUSED);
