import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { ChangedFiles } from '#config/load.ts';
import { writeWhole } from '#server/office/settings/write-whole.ts';

/** Writes a file that must not be there yet; false, and nothing written, where it is. */
export function writeNew(path: string, text: string): boolean {
  if (existsSync(path)) return false;
  writeWhole(path, text);
  return true;
}

/** Files that were put in place, and the way back. */
export interface Replaced {
  /** names under which the files as they were are kept */
  readonly kept: readonly string[];
  undo(): void;
}

/**
 * Puts changed files into a folder; each that was there is kept beside under a name that says until when it was.
 * @param stamp such as 20261125-044500
 * @throws the system's error, after putting back what was changed before it
 */
export function replaceFiles(folder: string, changed: ChangedFiles, stamp: string): Replaced {
  const kept: string[] = [];
  const back: (() => void)[] = [];
  const undo = (): void => {
    for (const step of back.splice(0).reverse()) step();
  };
  try {
    for (const [name, text] of changed) {
      const path = join(folder, name);
      if (existsSync(path)) {
        const before = readFileSync(path, 'utf8');
        const keptAs = freeName(folder, `${name}.until-${stamp}`);
        writeWhole(join(folder, keptAs), before);
        kept.push(keptAs);
        back.push(() => {
          writeWhole(path, before);
          rmSync(join(folder, keptAs), { force: true });
        });
      } else back.push(() => rmSync(path, { force: true }));
      writeWhole(path, text);
    }
  } catch (error) {
    undo();
    throw error;
  }
  return { kept, undo };
}

function freeName(folder: string, name: string): string {
  for (let count = 1; ; count += 1) {
    const tried = count === 1 ? name : `${name}-${String(count)}`;
    if (!existsSync(join(folder, tried))) return tried;
  }
}
