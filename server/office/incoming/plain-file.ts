import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { lstat, mkdir, open, rename, type FileHandle } from 'node:fs/promises';
import { dirname, join, parse } from 'node:path';
import type { Upload, UploadFolder } from '#server/office/upload-folder.ts';

/** By which a file is known to be the one that was read, and to have stopped growing. */
export interface Stamp {
  readonly size: number;
  readonly changedMs: number;
  readonly node: number;
}

export type ReadFile<Read> =
  | { readonly as: 'read'; readonly read: Read; readonly stamp: Stamp }
  | { readonly as: 'too-large'; readonly stamp: Stamp }
  /** gone, or written to while it was read */
  | { readonly as: 'changing' }
  | { readonly as: 'not-readable'; readonly why: string };

/** The stamp of a plain file; null for a link, a folder, anything else, or nothing. */
export async function stampOf(path: string): Promise<Stamp | null> {
  const found = await lstat(path).catch(() => null);
  if (found?.isFile() !== true) return null;
  return { size: found.size, changedMs: found.mtimeMs, node: found.ino };
}

export const sameStamp = (one: Stamp, other: Stamp): boolean =>
  one.size === other.size && one.changedMs === other.changedMs && one.node === other.node;

/** A copy of a file as it was at one moment, and the digest of what it holds. */
export interface Copied extends Upload {
  readonly digest: string;
}

/** Copies a plain file as a whole, never through a link; whoever gets the copy removes it. */
export async function copyPlain(path: string, most: number, uploads: UploadFolder): Promise<ReadFile<Copied>> {
  return withPlain<Copied>(path, async (file) => {
    const before = await stampOfOpen(file);
    if (before.size > most) return { as: 'too-large', stamp: before };
    const digest = createHash('sha256');
    let size = 0;
    const copied = await uploads.receive(file.createReadStream({ autoClose: false, start: 0 }), most, (piece) => {
      digest.update(piece);
      size += piece.length;
    });
    const after = await stampOfOpen(file);
    if (!sameStamp(before, after) || size !== after.size) {
      await copied.remove();
      return { as: 'changing' };
    }
    return { as: 'read', read: { ...copied, digest: digest.digest('hex') }, stamp: after };
  });
}

/** The first bytes of a plain file; nothing where it cannot be read. */
export async function beginningOf(path: string, most: number): Promise<Buffer> {
  const found = await withPlain<Buffer>(path, async (file) => {
    const { bytesRead, buffer } = await file.read(Buffer.alloc(most), 0, most, 0);
    return { as: 'read', read: buffer.subarray(0, bytesRead), stamp: await stampOfOpen(file) };
  });
  return found.as === 'read' ? found.read : Buffer.alloc(0);
}

async function withPlain<Read>(
  path: string,
  read: (file: FileHandle) => Promise<ReadFile<Read>>,
): Promise<ReadFile<Read>> {
  let file: FileHandle | null = null;
  try {
    // Without waiting, so that a pipe that was put there in between holds nothing up.
    file = await open(path, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK);
    if (!(await file.stat()).isFile()) return { as: 'changing' };
    return await read(file);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    return code === 'ENOENT' ? { as: 'changing' } : { as: 'not-readable', why: code };
  } finally {
    await file?.close().catch(() => undefined);
  }
}

async function stampOfOpen(file: FileHandle): Promise<Stamp> {
  const { size, mtimeMs, ino } = await file.stat();
  return { size, changedMs: mtimeMs, node: ino };
}

/** Longer names leave no room for what is put behind them. */
const LONGEST_NAME = 180;

/** A path below a folder that nothing has yet: "taken/orders.csv", or "taken/orders (2).csv". */
export async function freePlace(folder: string, below: string, name: string): Promise<string> {
  const { name: stem, ext } = parse(name);
  const short = stem.slice(0, LONGEST_NAME);
  for (let number = 1; ; number += 1) {
    const place = `${below}/${short}${number === 1 ? '' : ` (${String(number)})`}${ext}`;
    const taken = await Promise.all([place, beside(place)].map((each) => exists(join(folder, each))));
    if (!taken.includes(true)) return place;
  }
}

/** The text beside a file. */
export const beside = (place: string): string => `${place}.txt`;

export const exists = (path: string): Promise<boolean> =>
  lstat(path).then(
    () => true,
    () => false,
  );

/** A folder in one that is there. */
async function folderFor(path: string): Promise<void> {
  if (!(await exists(dirname(path)))) await mkdir(dirname(path));
}

export async function moveInto(from: string, to: string): Promise<void> {
  await folderFor(to);
  await rename(from, to);
}

/** Written whole or not at all. */
export async function writeText(path: string, text: string): Promise<void> {
  const written = `${path}.new`;
  await folderFor(path);
  const file = await open(written, 'w');
  try {
    await file.writeFile(text, 'utf8');
    await file.sync();
  } finally {
    await file.close();
  }
  await rename(written, path);
}
