import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { Logger } from 'pino';
import { filesOfShop } from '#config/load.ts';
import type { SettingsDesk } from './settings-desk.ts';

const LOOK_EVERY_MS = 500;

/**
 * Notices files of the shop that are changed by hand. It looks at their times and sizes, which works on any file system and for
 * any way in which an editor saves; a change counts once nothing has changed for a whole look.
 */
export class FolderWatch {
  readonly #folder: string;
  readonly #desk: SettingsDesk;
  readonly #log: Logger;
  readonly #timer: NodeJS.Timeout;
  #files: readonly string[];
  #taken: string;
  #seen: string;
  #looking = false;

  constructor(folder: string, desk: SettingsDesk, log: Logger) {
    this.#folder = folder;
    this.#desk = desk;
    this.#log = log;
    this.#files = filesOfShop(folder);
    this.#taken = this.#seen = this.#signature();
    this.#timer = setInterval(() => void this.#look(), LOOK_EVERY_MS);
    this.#timer.unref();
  }

  stop(): void {
    clearInterval(this.#timer);
  }

  async #look(): Promise<void> {
    if (this.#looking) return;
    this.#looking = true;
    try {
      const now = this.#signature();
      const settled = now === this.#seen;
      this.#seen = now;
      if (!settled || now === this.#taken) return;
      this.#files = filesOfShop(this.#folder);
      this.#taken = this.#seen = this.#signature();
      await this.#desk.takeFromDisk();
      const { problems } = this.#desk.trouble;
      // What was found there may be somebody's name.
      const places = problems.map(({ file, line, path }) => ({ file, line, path }));
      if (places.length > 0) this.#log.warn({ places }, 'changed files cannot be used; the shop stays as it was');
      else this.#log.info('the shop was read again from changed files');
    } catch (error) {
      this.#log.error({ error }, 'changed files could not be read');
    } finally {
      this.#looking = false;
    }
  }

  #signature(): string {
    // The folder of the rate cards itself changes when one comes or goes.
    const marks = [...this.#files, 'rate-cards'].map((file) => {
      const stat = statSync(join(this.#folder, file), { throwIfNoEntry: false });
      return stat === undefined ? [file] : [file, stat.mtimeMs, stat.size, stat.ino];
    });
    return JSON.stringify(marks);
  }
}
