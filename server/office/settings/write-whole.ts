import { closeSync, fchmodSync, fsyncSync, openSync, realpathSync, renameSync, statSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { makeFolder } from '#server/make-folder.ts';

/** Writes a file whole or not at all: beside it, to the disk, then in its place. What a link points to is written, not the link. */
export function writeWhole(path: string, text: string): void {
  makeFolder(dirname(path));
  const there = statSync(path, { throwIfNoEntry: false });
  const place = there === undefined ? path : realpathSync(path);
  const beside = `${place}.new`;
  const file = openSync(beside, 'w', 0o644);
  try {
    if (there !== undefined) fchmodSync(file, there.mode);
    writeSync(file, text);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  renameSync(beside, place);
  const folder = openSync(dirname(place), 'r');
  try {
    fsyncSync(folder);
  } finally {
    closeSync(folder);
  }
}
