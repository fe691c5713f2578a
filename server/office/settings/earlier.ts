import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { EarlierVersion } from '#shared/wire/settings.ts';
import { digestOf } from './digest.ts';
import { versionsToRemove, type VersionsKept } from './versions-kept.ts';
import { writeWhole } from './write-whole.ts';

/** Beside the shop's files, so that they go along with them and can be put back by hand. */
const EARLIER = '.earlier';

const kept = z.object({
  until: z.number(),
  why: z.enum(['changed', 'restored', 'by-hand', 'removed']),
  by: z.string().nullable(),
});
export type Kept = Omit<z.output<typeof kept>, never>;

/** What the files of a config folder were before each change: `.earlier/<file>/<when>.yaml`, with who and why beside it. */
export class EarlierVersions {
  readonly #folder: string;

  constructor(folder: string) {
    this.#folder = folder;
  }

  /** @returns the version's id @throws the system's error */
  keep(file: string, text: string, told: Kept): string {
    const stamp = new Date(told.until).toISOString().replace(/[-:]/g, '').replace(/[T.]/g, '-').replace('Z', '');
    const base = `${stamp}-${digestOf(text).slice(0, 8)}`;
    let id = base;
    for (let count = 2; existsSync(this.#path(file, id, 'yaml')); count += 1) id = `${base}-${String(count)}`;
    writeWhole(this.#path(file, id, 'json'), `${JSON.stringify(told)}\n`);
    writeWhole(this.#path(file, id, 'yaml'), text);
    return id;
  }

  /** Every file of which a version is kept. */
  files(): readonly string[] {
    const folder = join(this.#folder, EARLIER);
    const names = existsSync(folder) ? readdirSync(folder) : [];
    return names.map((name) => name.replaceAll('~', '/').replaceAll('elsewhere', '..'));
  }

  /**
   * Removes versions that are no longer kept: all of the last days stay, then the last one of each week.
   * @returns how many were removed
   */
  thin(keep: VersionsKept, now: number, timeZone: string): number {
    let removed = 0;
    for (const file of this.files()) {
      for (const id of versionsToRemove(this.list(file), keep, now, timeZone)) {
        // The text last: a version without its facts is still one.
        rmSync(this.#path(file, id, 'json'), { force: true });
        rmSync(this.#path(file, id, 'yaml'), { force: true });
        removed += 1;
      }
    }
    return removed;
  }

  /** Newest first. */
  list(file: string): readonly Omit<EarlierVersion, 'byName'>[] {
    const names = this.#names(file).filter((name) => name.endsWith('.yaml'));
    return names
      .map((name) => this.#version(file, name.slice(0, -'.yaml'.length)))
      .sort((a, b) => b.until - a.until || (a.id < b.id ? 1 : -1));
  }

  /** Null where there is none of that name. */
  text(file: string, id: string): string | null {
    if (!this.#names(file).includes(`${id}.yaml`)) return null;
    return readFileSync(this.#path(file, id, 'yaml'), 'utf8');
  }

  #version(file: string, id: string): Omit<EarlierVersion, 'byName'> {
    try {
      const told = kept.parse(JSON.parse(readFileSync(this.#path(file, id, 'json'), 'utf8')));
      return { id, ...told };
    } catch {
      // The text is what counts; its name says when it was.
      const [, y, mo, d, h, mi, s] = /^(\d{4})(\d\d)(\d\d)-(\d\d)(\d\d)(\d\d)/.exec(id) ?? [];
      const until = Date.parse(`${y ?? ''}-${mo ?? ''}-${d ?? ''}T${h ?? ''}:${mi ?? ''}:${s ?? ''}Z`);
      return { id, until: Number.isNaN(until) ? 0 : until, why: 'by-hand', by: null };
    }
  }

  #names(file: string): readonly string[] {
    const folder = join(this.#folder, EARLIER, flat(file));
    return existsSync(folder) ? readdirSync(folder) : [];
  }

  #path(file: string, id: string, as: 'yaml' | 'json'): string {
    return join(this.#folder, EARLIER, flat(file), `${id}.${as}`);
  }
}

/** "rate-cards/merrow-post.yaml" as the name of one folder; a file of another folder has one of its own. */
function flat(file: string): string {
  return file.replaceAll('..', 'elsewhere').replaceAll('/', '~');
}
