import { readdir, readFile, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { makeFolder } from '#server/make-folder.ts';

/**
 * Sounds kept in a folder under their key, so that a station speaks at once after a restart. Nothing depends on it: what
 * cannot be read or written is made again, and the folder may be deleted at any time.
 */
export class DiskShelf {
  readonly #folder: string;
  readonly #most: number;
  #writes = 0;

  constructor(folder: string, mostBytes: number) {
    this.#folder = folder;
    this.#most = mostBytes;
  }

  async get(key: string): Promise<Buffer | null> {
    try {
      const path = this.#path(key);
      const sound = await readFile(path);
      const now = new Date();
      await utimes(path, now, now).catch(() => undefined);
      return sound;
    } catch {
      return null;
    }
  }

  async put(key: string, sound: Buffer): Promise<void> {
    try {
      makeFolder(this.#folder);
      const path = this.#path(key);
      const writing = `${path}.${String(this.#writes++)}.tmp`;
      await writeFile(writing, sound);
      await rename(writing, path);
      await this.#tidy();
    } catch {
      // A full disk or a forbidden folder: the sound is made again next time.
    }
  }

  /** Throws out what was used longest ago until the folder is below its limit. */
  async #tidy(): Promise<void> {
    const names = await readdir(this.#folder);
    const files = await Promise.all(
      names.map(async (name) => {
        const path = join(this.#folder, name);
        const { size, mtimeMs } = await stat(path);
        return { path, size, mtimeMs };
      }),
    );
    let bytes = files.reduce((sum, each) => sum + each.size, 0);
    for (const each of files.sort((a, b) => a.mtimeMs - b.mtimeMs)) {
      if (bytes <= this.#most) return;
      await rm(each.path, { force: true });
      bytes -= each.size;
    }
  }

  #path(key: string): string {
    return join(this.#folder, `${key}.wav`);
  }
}
