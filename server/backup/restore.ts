import { existsSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { backupName, BackupError, STORE_FILE, type Manifest } from './manifest.ts';
import { copyWhole, onDisk } from './files.ts';
import { proveBackup } from './prove.ts';
import { holdFolder } from '#server/store/lock.ts';
import { makeFolder } from '#server/make-folder.ts';

export interface Restore {
  /** a backup */
  readonly from: string;
  /** the data folder that it becomes */
  readonly to: string;
  /** where the shop's files go; nowhere without it */
  readonly configTo?: string;
  /** what lies there is put aside under another name */
  readonly replace: boolean;
  readonly now: number;
}

export interface Restored {
  readonly manifest: Manifest;
  /** where what lay there before is now; empty when nothing did */
  readonly aside: readonly string[];
}

/**
 * Makes a data folder of a backup. Everything is copied into a folder beside it and takes its name last, so that a restore
 * that is cut off leaves what was there, or says at the next start where it is; nothing is ever written over.
 * @throws BackupError when the backup is not whole or the folder is not free; StoreError when a server runs on it
 */
export function restore({ from, to, configTo, replace, now }: Restore): Restored {
  clearAway(resolve(to));
  const manifest = proveBackup(from, `${resolve(to)}.proving-`);
  const targets = [to, ...(configTo === undefined ? [] : [configTo])].map((each) => resolve(each));
  for (const target of targets) {
    if (!replace && isUsed(target)) {
      throw new BackupError(
        `${target}: expected an empty folder, found files; with --replace they are put aside under another name`,
      );
    }
  }
  const lock = existsSync(to) ? holdFolder(to) : null;
  try {
    const aside: string[] = [];
    const made = targets.map((target, index) => {
      const making = `${target}.restoring-${String(process.pid)}`;
      clearAway(target);
      makeFolder(making, 0o700);
      const part = index === 0 ? 'files/' : 'config/';
      for (const name of Object.keys(manifest.files)) {
        if (name.startsWith(part)) copyWhole(join(from, name), join(making, name.slice(part.length)));
      }
      if (index === 0) copyWhole(join(from, STORE_FILE), join(making, STORE_FILE));
      onDisk(making);
      return { making, target };
    });
    for (const { making, target } of made) {
      if (isUsed(target)) {
        const old = `${target}.before-${backupName(now).slice('benchfold-'.length)}`;
        renameSync(target, old);
        aside.push(old);
        keepBackups(old, making);
      } else rmSync(target, { recursive: true, force: true });
      renameSync(making, target);
      onDisk(dirname(target));
    }
    return { manifest, aside };
  } catch (error) {
    if (error instanceof BackupError) throw error;
    const why = error instanceof Error ? error.message : String(error);
    throw new BackupError(`${to}: could not be restored (${why}); what lay there is still there or beside it`, {
      cause: error,
    });
  } finally {
    lock?.release();
  }
}

/** What a restore that was cut off was making, unless it has taken over backups already. */
function clearAway(target: string): void {
  const parent = dirname(target);
  if (!existsSync(parent)) return;
  for (const name of readdirSync(parent)) {
    const path = join(parent, name);
    const isCutOff = [`${basename(target)}.restoring-`, `${basename(target)}.proving-`].some((begun) =>
      name.startsWith(begun),
    );
    if (isCutOff && !existsSync(join(path, 'backups'))) rmSync(path, { recursive: true, force: true });
  }
}

/** A lock alone is nothing to lose. */
function isUsed(folder: string): boolean {
  return existsSync(folder) && readdirSync(folder).some((name) => !name.startsWith('in-use.lock'));
}

/** Backups that lie in the data folder itself go on with it. */
function keepBackups(old: string, making: string): void {
  if (existsSync(join(old, 'backups'))) renameSync(join(old, 'backups'), join(making, 'backups'));
}

/** Folders beside a data folder that a restore which was cut off has left: what was there before, and what it was making. */
export function cutOffRestore(data: string): { readonly before: string | null; readonly making: string | null } {
  const folder = resolve(data);
  const parent = dirname(folder);
  const names = existsSync(parent) ? readdirSync(parent).sort() : [];
  const last = (mark: string) => names.filter((name) => name.startsWith(`${basename(folder)}.${mark}-`)).at(-1);
  const [before, making] = [last('before'), last('restoring')];
  return {
    before: before === undefined ? null : join(parent, before),
    making: making === undefined ? null : join(parent, making),
  };
}
