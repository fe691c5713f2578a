import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Zip, ZipPassThrough } from 'fflate';

/** The files of a folder that exist, as one ZIP archive, piece by piece: no more than one file is held at a time. */
export async function* zipOf(folder: string, files: readonly string[]): AsyncGenerator<Uint8Array> {
  let made: Uint8Array[] = [];
  let failed: Error | null = null;
  const zip = new Zip((error, piece) => {
    failed ??= error;
    made.push(piece);
  });
  const ready = (): readonly Uint8Array[] => {
    if (failed !== null) throw failed;
    const pieces = made;
    made = [];
    return pieces;
  };
  for (const file of files) {
    const path = join(folder, file);
    if (!existsSync(path)) continue;
    const entry = new ZipPassThrough(file);
    zip.add(entry);
    entry.push(await readFile(path), true);
    yield* ready();
  }
  zip.end();
  yield* ready();
}
