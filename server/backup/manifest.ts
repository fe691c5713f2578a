import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

/** The list of what is in a backup; it is written last. */
export const MANIFEST = 'backup.json';
export const STORE_FILE = 'benchfold.db';

const digest = z.string().regex(/^[0-9a-f]{64}$/);
const manifest = z.strictObject({
  version: z.literal(1),
  /** epoch ms */
  at: z.int(),
  /** the newest migration of the store */
  schema: z.string(),
  tables: z.record(z.string(), z.strictObject({ rows: z.int().min(0), sha256: digest })),
  /** everything else, by its path in the backup; `bytes` and digest of each */
  files: z.record(z.string(), z.strictObject({ bytes: z.int().min(0), sha256: digest })),
});
export type Manifest = z.output<typeof manifest>;

/** A backup or a restore that did not come about. `message` is one line for the console. */
export class BackupError extends Error {
  override readonly name = 'BackupError';
}

/** @throws BackupError where a folder is no backup */
export function readManifest(folder: string): Manifest {
  let text: string;
  try {
    text = readFileSync(join(folder, MANIFEST), 'utf8');
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new BackupError(`${folder}: expected a backup with its ${MANIFEST} (${why})`, { cause: error });
  }
  try {
    return manifest.parse(JSON.parse(text));
  } catch (error) {
    throw new BackupError(`${join(folder, MANIFEST)}: expected the list of a backup, found something else`, {
      cause: error,
    });
  }
}

/** A backup in a folder of backups. */
export interface Backup {
  readonly path: string;
  readonly at: number;
  readonly manifest: Manifest;
}

/** What lies in a folder of backups, the newest first; what is no whole backup is left out. */
export function backupsIn(folder: string): readonly Backup[] {
  let names: readonly string[];
  try {
    names = readdirSync(folder);
  } catch {
    return [];
  }
  return names
    .filter((name) => BACKUP_NAME.test(name))
    .flatMap((name) => {
      const path = join(folder, name);
      try {
        const read = readManifest(path);
        return [{ path, at: read.at, manifest: read }];
      } catch {
        return [];
      }
    })
    .sort((one, other) => other.at - one.at);
}

const BACKUP_NAME = /^benchfold-\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d-\d{3}Z$/;

/** "benchfold-2026-11-25T14-05-09-120Z": sorts by time, and may stand in a path everywhere. */
export function backupName(at: number): string {
  return `benchfold-${new Date(at).toISOString().replaceAll(/[:.]/g, '-')}`;
}
