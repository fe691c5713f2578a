import { createHash } from 'node:crypto';
import { closeSync, copyFileSync, fsyncSync, openSync, readdirSync, readSync, statSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import type { Manifest } from './manifest.ts';
import { makeFolder } from '#server/make-folder.ts';

/** Of the data folder what is made again by itself, or is the store. */
const NOT_TAKEN = /^(benchfold\.db.*|in-use\.lock.*|speech|server\.log.*|backups)$|\.part$/;
/** Of a config folder what belongs to the program that stands beside the demo shop's files. */
const NOT_OF_SHOP = /\.ts$|^schema$/;

function* below(folder: string): Iterable<string> {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* below(path);
    else if (entry.isFile()) yield path;
  }
}

function pathsIn(folder: string, left: RegExp, except: string | null): readonly string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter(({ name }) => !left.test(name) && join(folder, name) !== except)
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return [...below(path)];
      return entry.isFile() ? [path] : [];
    })
    .map((path) => relative(folder, path))
    .filter((path) => !/\.part$|\.ts$/.test(path))
    .sort();
}

/** What beside the store belongs into a backup, by paths as they are in it: `files/` of the data folder, `config/`. */
export function filesToTake(data: string, config: string, backups: string): ReadonlyMap<string, string> {
  const taken = new Map<string, string>();
  for (const path of pathsIn(data, NOT_TAKEN, backups)) taken.set(posix(join('files', path)), join(data, path));
  for (const path of pathsIn(config, NOT_OF_SHOP, null)) taken.set(posix(join('config', path)), join(config, path));
  return taken;
}

const posix = (path: string) => path.split(sep).join('/');

/** The digest of a file, read in pieces. */
export function digestOf(path: string): { readonly bytes: number; readonly sha256: string } {
  const hash = createHash('sha256');
  const file = openSync(path, 'r');
  try {
    const piece = Buffer.alloc(1 << 20);
    let bytes = 0;
    for (let read = readSync(file, piece); read > 0; read = readSync(file, piece)) {
      hash.update(piece.subarray(0, read));
      bytes += read;
    }
    return { bytes, sha256: hash.digest('hex') };
  } finally {
    closeSync(file);
  }
}

/** Copies a file with its permissions and has it on the disk. */
export function copyWhole(from: string, to: string): void {
  makeFolder(dirname(to), 0o700);
  copyFileSync(from, to);
  onDisk(to);
}

/** Waits until a file or folder is on the disk; not every system does that for folders. */
export function onDisk(path: string): void {
  let file: number;
  try {
    file = openSync(path, 'r');
  } catch {
    return;
  }
  try {
    fsyncSync(file);
  } catch (error) {
    if (!statSync(path).isDirectory()) throw error;
  } finally {
    closeSync(file);
  }
}

/** A line for every file that is not as the list says. */
export function filesDiffer(folder: string, { files }: Manifest): readonly string[] {
  return Object.entries(files).flatMap(([path, wanted]) => {
    try {
      return digestOf(join(folder, path)).sha256 === wanted.sha256 ? [] : [`${path}: not as it was`];
    } catch (error) {
      return [`${path}: ${error instanceof Error ? error.message : String(error)}`];
    }
  });
}
