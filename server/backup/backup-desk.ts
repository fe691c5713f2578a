import { existsSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Worker } from 'node:worker_threads';
import type { Logger } from 'pino';
import type { BackUp } from './back-up.ts';
import type { BackupAnswer } from './backup-worker.ts';
import { backupsIn, STORE_FILE, type Backup } from './manifest.ts';
import { kept } from './thinning.ts';
import type { Clock } from '#server/clock.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { startThread } from '#server/start-thread.ts';
import { BACKUP_DEFAULTS, type BackupSettings } from '#shared/shop/backups.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { BackupsView } from '#shared/wire/backups.ts';

export interface BackupDeskParts {
  readonly data: string;
  /** false: the store lies in a database elsewhere; a file that is still there is an old one */
  readonly inFolder: boolean;
  readonly shops: ShopHolder;
  readonly clock: Clock;
  readonly log: Logger;
  /** how soon after the start, and how often, it looks whether one is due; ms */
  readonly looks?: { readonly first: number; readonly every: number };
}

/** A server that has just started serves its benches first. */
const LOOKS = { first: 10 * 60_000, every: 60_000 } as const;
const HOUR_MS = 3_600_000;
/** A backup that is so many times later than it should be is told as old. */
const LATE = 2;

/** How a shop is backed up; null where it wants none. */
function backupSettings({ backups }: Shop): BackupSettings | null {
  return backups === undefined ? BACKUP_DEFAULTS : backups;
}

/** Where a shop's backups lie. */
export function backupFolder(data: string, shop: Shop): string {
  return resolve(data, backupSettings(shop)?.folder ?? 'backups');
}

/** Backs the shop up when it is time, keeps what is to be kept, and tells the office how that went. */
export class BackupDesk {
  readonly #parts: BackupDeskParts;
  readonly #firstLook: number;
  readonly #timer: NodeJS.Timeout;
  #running: Promise<string> | null = null;
  #failed: { readonly at: number; readonly why: string } | null = null;
  #worker: Worker | null = null;
  readonly #startedAt = performance.now();

  constructor(parts: BackupDeskParts) {
    this.#parts = parts;
    const { first, every } = parts.looks ?? LOOKS;
    this.#firstLook = first;
    this.#timer = setInterval(() => this.#look(), every);
    this.#timer.unref();
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    await this.#worker?.terminate();
    await this.#running?.catch(() => undefined);
  }

  get folder(): string {
    return backupFolder(this.#parts.data, this.#parts.shops.current);
  }

  view(): BackupsView {
    const settings = backupSettings(this.#parts.shops.current);
    const made = backupsIn(this.folder);
    const now = this.#parts.clock.now();
    return {
      folder: this.folder,
      data: this.#parts.data,
      every: settings?.every ?? null,
      here: this.#here,
      running: this.#running !== null,
      old: this.#here && settings !== null && this.#isOld(made[0]?.at ?? null, settings, now),
      failed: this.#failed,
      backups: made.map(({ path, at, manifest }) => ({
        path,
        at,
        orders: manifest.tables['shop_order']?.rows ?? 0,
        parcels: manifest.tables['parcel']?.rows ?? 0,
        files: Object.keys(manifest.files).length,
      })),
    };
  }

  /**
   * Makes one; whoever asks while one is being made waits for that one.
   * @throws Error with what went wrong
   */
  make(): Promise<string> {
    this.#running ??= this.#make().finally(() => {
      this.#running = null;
      this.#worker = null;
    });
    return this.#running;
  }

  /** A shop that has just begun has none and is not late. */
  #isOld(newest: number | null, { every }: BackupSettings, now: number): boolean {
    if (this.#failed !== null) return true;
    const age = newest === null ? performance.now() - this.#startedAt : now - newest;
    return age > LATE * every * HOUR_MS;
  }

  /** Whether the store is a file of the data folder at all. */
  get #here(): boolean {
    return this.#parts.inFolder && existsSync(join(this.#parts.data, STORE_FILE));
  }

  #look(): void {
    const { clock, shops, log } = this.#parts;
    const settings = backupSettings(shops.current);
    if (settings === null || !this.#here || performance.now() - this.#startedAt < this.#firstLook) return;
    if (this.#running !== null) return;
    const newest = backupsIn(this.folder)[0]?.at ?? null;
    if (!isDue(newest, this.#failed?.at ?? null, settings, clock.now())) return;
    this.make().catch((error: unknown) => log.error({ error }, 'the shop could not be backed up'));
  }

  async #make(): Promise<string> {
    const { data, shops, clock, log } = this.#parts;
    const now = clock.now();
    try {
      const path = await this.#inThread({ data, config: shops.folder, to: this.folder, now });
      this.#failed = null;
      log.info({ path }, 'the shop was backed up');
      this.#thin();
      return path;
    } catch (error) {
      this.#failed = { at: now, why: error instanceof Error ? error.message : String(error) };
      throw error;
    }
  }

  #inThread(job: BackUp): Promise<string> {
    const worker = startThread(new URL('./backup-worker.ts', import.meta.url), job);
    this.#worker = worker;
    return new Promise((done, failed) => {
      worker.once('message', (answer: BackupAnswer) =>
        'made' in answer ? done(answer.made) : failed(new Error(answer.failed)),
      );
      worker.once('error', failed);
      worker.once('exit', () => failed(new Error('the backup was broken off')));
    });
  }

  #thin(): void {
    const { shops, log } = this.#parts;
    const settings = backupSettings(shops.current);
    if (settings === null) return;
    const all: readonly Backup[] = backupsIn(this.folder);
    const keep = kept(all, settings, shops.current.timeZone);
    for (const backup of all) {
      if (keep.has(backup)) continue;
      rmSync(backup.path, { recursive: true, force: true });
      log.info({ path: backup.path }, 'a backup that is not needed any more was removed');
    }
  }
}

/** A newest backup from the future was made before the clock was set back: it says nothing of how old it is. */
export function isDue(newest: number | null, failedAt: number | null, { every }: BackupSettings, now: number): boolean {
  const since = (at: number | null) => at === null || at > now || now - at >= every * HOUR_MS;
  const patient = failedAt === null || failedAt > now || now - failedAt >= HOUR_MS;
  return since(newest) && patient;
}
