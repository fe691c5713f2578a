import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const CONFIG = new URL('../../config/', import.meta.url).pathname;

const made: string[] = [];

/** A copy of the demo shop's config in a folder of its own; {@link removeConfigFolders} takes it away. */
export function copyOfConfig(): string {
  const folder = mkdtempSync(join(tmpdir(), 'benchfold-config-'));
  made.push(folder);
  cpSync(CONFIG, folder, { recursive: true, filter: (path) => !path.endsWith('.ts') });
  return folder;
}

/** Changes one text of a file, which must be in it. */
export function edit(folder: string, file: string, before: string | RegExp, after: string): void {
  const path = join(folder, file);
  const text = readFileSync(path, 'utf8');
  const changed = text.replace(before, after);
  if (changed === text) throw new Error(`${file} does not contain ${String(before)}`);
  writeFileSync(path, changed);
}

/** The line of a text in a file, counted from 1. */
export function lineOf(folder: string, file: string, wanted: string): number {
  const line = readFileSync(join(folder, file), 'utf8')
    .split('\n')
    .findIndex((each) => each.includes(wanted));
  if (line === -1) throw new Error(`${file} does not contain ${wanted}`);
  return line + 1;
}

export function removeConfigFolders(): void {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
}
