import { mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/**
 * Makes a folder with those above it, unless it is there. One after the other: where the system makes none at all, as below
 * `/proc`, Node's own way of making several never ends.
 * @throws the system's error, with the folder that could not be made
 */
export function makeFolder(folder: string, mode?: number): void {
  const path = resolve(folder);
  if (isFolder(path)) return;
  const above = dirname(path);
  try {
    mkdirSync(path, { mode });
  } catch (error) {
    // Somebody else may have made it meanwhile.
    if (isFolder(path)) return;
    const isAboveMissing = error instanceof Error && 'code' in error && error.code === 'ENOENT' && !isFolder(above);
    if (!isAboveMissing) throw error;
    makeFolder(above, mode);
    makeFolder(path, mode);
  }
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}
