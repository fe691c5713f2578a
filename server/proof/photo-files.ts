import { createHash } from 'node:crypto';
import { open, readFile, readdir, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { makeFolder } from '#server/make-folder.ts';

const NAME = /^[0-9a-f]{64}$/;

/** Photos in a folder, each under the SHA-256 of its bytes. */
export class PhotoFiles {
  readonly #folder: string;

  constructor(folder: string) {
    this.#folder = folder;
  }

  /**
   * Puts a photo on the disk, whole or not at all: beside its place, synced, then in its place.
   * @returns its name
   * @throws the system's error when the disk is full or cannot be written to
   */
  async put(bytes: Uint8Array): Promise<string> {
    const name = createHash('sha256').update(bytes).digest('hex');
    const path = this.#path(name);
    makeFolder(dirname(path));
    const beside = `${path}.new`;
    const file = await open(beside, 'w', 0o600);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
    await syncFolder(dirname(path));
    return name;
  }

  /** Null where it is not there, or is not what was put there. */
  async read(name: string): Promise<Uint8Array | null> {
    if (!NAME.test(name)) return null;
    const bytes = await readFile(this.#path(name)).catch(() => null);
    if (bytes === null) return null;
    return createHash('sha256').update(bytes).digest('hex') === name ? bytes : null;
  }

  async remove(name: string): Promise<void> {
    if (NAME.test(name)) await rm(this.#path(name), { force: true });
  }

  /** Every photo there is, and what a server that stopped in the middle has left. */
  async list(): Promise<{ readonly photos: readonly string[]; readonly unfinished: readonly string[] }> {
    const photos: string[] = [];
    const unfinished: string[] = [];
    for (const folder of await readdir(this.#folder).catch(() => [])) {
      for (const file of await readdir(join(this.#folder, folder)).catch(() => [])) {
        const name = file.replace(/\.jpg$/, '');
        if (file.endsWith('.jpg.new')) unfinished.push(join(this.#folder, folder, file));
        else if (NAME.test(name)) photos.push(name);
      }
    }
    return { photos, unfinished };
  }

  #path(name: string): string {
    return join(this.#folder, name.slice(0, 2), `${name}.jpg`);
  }
}

async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, 'r');
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}
