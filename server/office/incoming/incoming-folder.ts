import { isAbsolute, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { Logger } from 'pino';
import { FolderLook, REFUSED, TAKEN, type ReadyFile } from './folder-look.ts';
import { judgeFile } from './judge.ts';
import {
  beginningOf,
  beside,
  exists,
  freePlace,
  moveInto,
  copyPlain,
  sameStamp,
  stampOf,
  writeText,
  type Copied,
  type ReadFile,
} from './plain-file.ts';
import type { Clock } from '#server/clock.ts';
import { lookAt } from '#server/office/imports/look.ts';
import { readTable } from '#server/office/imports/table.ts';
import type { ImportsUnderWay } from '#server/office/imports-under-way.ts';
import { wallTimeAt } from '#server/office/local-time.ts';
import type { UploadFolder } from '#server/office/upload-folder.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { importSources } from '#server/store/import-sources.ts';
import {
  addIncoming,
  incomingByDigest,
  moveElsewhere,
  newestIncoming,
  noteMoved,
  unmovedIncoming,
  type StoredIncoming,
} from '#server/store/incoming.ts';
import type { Store } from '#server/store/open.ts';
import { incomingText } from '#shared/imports/incoming-text.ts';
import { LOOK_BYTES } from '#shared/wire/imports.ts';
import type { IncomingView, WaitingFile, WaitingWhy } from '#shared/wire/incoming.ts';
import type { ImportSubject } from '#shared/wire/office.ts';
import { makeFolder } from '#server/make-folder.ts';

export interface IncomingParts {
  readonly store: Store;
  readonly shops: Pick<ShopHolder, 'current'>;
  readonly clock: Clock;
  readonly log: Logger;
  readonly imports: ImportsUnderWay;
  /** the data folder */
  readonly data: string;
  readonly uploads: UploadFolder;
  /** told when something of a file was stored */
  readonly onStored: () => Promise<void>;
}

const USUAL_FOLDER = 'incoming';
/** Looked at again and again: a share of the network tells of no changes, and what is told can be lost. */
const LOOK_EVERY_MS = 1000;
const AGAIN_AFTER_MS = 10_000;
/** Orders wait so long for a file beside them that still grows. */
const BEHIND_OTHERS_MS = 60_000;
const STOP_WITHIN_MS = 1000;
const LARGEST_MB = 64;
const MOST_SHOWN = 40;
const MOST_PROBLEMS_SHOWN = 12;

/**
 * The watched folder: a file that is put there is imported when it has stopped growing, and moved into `taken` or `refused`,
 * with a text beside it where it was not stored. What a file holds is known by its digest, so nothing is done twice.
 */
export class IncomingFolder {
  readonly #parts: IncomingParts;
  readonly #look = new FolderLook();
  /** files that could not be read or moved, until when they are left */
  readonly #left = new Map<string, { readonly why: WaitingWhy; readonly until: number }>();
  #waiting: readonly WaitingFile[] = [];
  #trouble: string | null = null;
  #timer: NodeJS.Timeout | null = null;
  #busy: Promise<void> = Promise.resolve();

  constructor(parts: IncomingParts) {
    this.#parts = parts;
  }

  get folder(): string {
    const named = this.#parts.shops.current.importFormats.watchedFolder ?? USUAL_FOLDER;
    return isAbsolute(named) ? named : join(this.#parts.data, named);
  }

  start(): void {
    this.#busy = this.#recover().catch((error: unknown) => this.#failed(error));
    this.#timer = setInterval(() => void this.look(), LOOK_EVERY_MS);
    this.#timer.unref();
  }

  async stop(): Promise<void> {
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#timer = null;
    // A long file is stored to its end by the next start.
    await Promise.race([this.#busy, setTimeout(STOP_WITHIN_MS, undefined, { ref: false })]);
  }

  async view(): Promise<IncomingView> {
    const newest = await newestIncoming(this.#parts.store, MOST_SHOWN);
    const files = newest.map(({ id, name, movedTo, state, subject, source, counts, problems, at }) => {
      return {
        id,
        name,
        movedTo,
        state,
        subject,
        source,
        counts,
        problems: problems.slice(0, MOST_PROBLEMS_SHOWN),
        at,
      };
    });
    return { folder: this.folder, trouble: this.#trouble, waiting: this.#waiting, files };
  }

  /** Looks once, and takes what is ready. One look at a time. */
  look(): Promise<void> {
    let done = false;
    this.#busy = this.#busy.then(async () => {
      if (done) return;
      done = true;
      await this.#once().catch((error: unknown) => this.#failed(error));
    });
    return this.#busy;
  }

  #failed(error: unknown): void {
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'failed';
    if (this.#trouble !== why) this.#parts.log.error({ error }, 'the watched folder cannot be looked into');
    this.#trouble = why;
  }

  async #once(): Promise<void> {
    const { folder } = this;
    // A folder that the shop names may lie on a disk that is not there just now: it is not made in its place.
    if (this.#parts.shops.current.importFormats.watchedFolder === undefined) makeFolder(folder);
    const now = this.#parts.clock.now();
    const { ready, waiting } = await this.#look.look(folder, now);
    this.#trouble = null;
    for (const [name, { until }] of this.#left)
      if (now >= until || until - now > AGAIN_AFTER_MS) this.#left.delete(name);
    const still = [...waiting];
    const able: ReadyFile[] = [];
    for (const file of ready) {
      const left = this.#left.get(file.name);
      if (left === undefined) able.push(file);
      else still.push({ name: file.name, why: left.why });
    }
    const inOrder = await this.#inOrder(folder, able);
    const grows = waiting.some(({ why }) => why === 'growing');
    for (const [at, { name, subject, since }] of inOrder.entries()) {
      if (grows && subject === 'orders' && now - since < BEHIND_OTHERS_MS) {
        still.push({ name, why: 'behind-others' });
        continue;
      }
      const others = inOrder
        .slice(at + 1)
        .map(({ name: other }): WaitingFile => ({ name: other, why: 'behind-others' }));
      this.#waiting = [...still, { name, why: 'being-read' }, ...others];
      const why = await this.#take(folder, name);
      if (why === null) continue;
      this.#left.set(name, { why, until: now + AGAIN_AFTER_MS });
      still.push({ name, why });
    }
    this.#waiting = still;
  }

  /** Pieces before orders, whatever their names. */
  async #inOrder(
    folder: string,
    files: readonly ReadyFile[],
  ): Promise<readonly (ReadyFile & { readonly subject: ImportSubject | null })[]> {
    if (files.length === 0) return [];
    const sources = await importSources(this.#parts.store);
    const withSubjects = await Promise.all(
      files.map(async (file) => {
        const bytes = await beginningOf(join(folder, file.name), LOOK_BYTES);
        try {
          const table = readTable(bytes, bytes.length === LOOK_BYTES);
          return { ...file, subject: lookAt(table, this.#parts.shops.current, sources).subject };
        } catch {
          return { ...file, subject: null };
        }
      }),
    );
    const place = { pieces: 0, orders: 1 };
    return withSubjects.sort((a, b) => place[a.subject ?? 'orders'] - place[b.subject ?? 'orders']);
  }

  /** Why it must wait; null when it is done with. */
  async #take(folder: string, name: string): Promise<WaitingWhy | null> {
    const found = await copyPlain(join(folder, name), LARGEST_MB * 2 ** 20, this.#parts.uploads);
    if (found.as === 'not-readable') return 'not-readable';
    if (found.as === 'changing') {
      this.#look.forget(name);
      return null;
    }
    try {
      return await this.#takeRead(folder, name, found);
    } finally {
      if (found.as === 'read') await found.read.remove();
    }
  }

  async #takeRead(
    folder: string,
    name: string,
    found: Extract<ReadFile<Copied>, { readonly as: 'read' | 'too-large' }>,
  ): Promise<WaitingWhy | null> {
    const { store, shops, clock, log, imports, uploads } = this.#parts;
    const { size, changedMs } = found.stamp;
    const digest = found.as === 'read' ? found.read.digest : `too-large:${String(size)}:${String(changedMs)}`;
    const known = await incomingByDigest(store, digest);
    if (!known.some((each) => each.name === name && !each.moved)) {
      const places = { taken: await freePlace(folder, TAKEN, name), refused: await freePlace(folder, REFUSED, name) };
      const before = known.find(({ state }) => state === 'stored');
      const row = { name, digest, subject: null, source: null, counts: NOTHING, at: clock.now() };
      if (found.as === 'too-large') {
        const megabytes = Math.ceil(size / 2 ** 20);
        const problem = `expected a file of at most ${String(LARGEST_MB)} MB; this one has ${String(megabytes)} MB`;
        await addIncoming(store, { ...row, state: 'refused', movedTo: places.refused, problems: [problem] });
      } else if (before !== undefined) {
        const problem = `expected a file that is new; found what ${before.name} held`;
        await addIncoming(store, { ...row, state: 'twice', movedTo: places.taken, problems: [problem] });
      } else {
        const at = { store, shop: shops.current, clock, uploads };
        const content = { path: found.read.path };
        const state = await imports.during(() => judgeFile(at, { name, content, digest, places }));
        log.info({ state, bytes: size }, 'a file of the watched folder was read');
        if (state === 'stored') await this.#parts.onStored();
      }
    }
    const now = await stampOf(join(folder, name));
    const same = now !== null && sameStamp(now, found.stamp);
    for (const row of await unmovedIncoming(store)) {
      if (row.name !== name) continue;
      // Another file has its name by now: that one stays, to be looked at as a new one.
      if (!same || row.digest !== digest) await noteMoved(store, row.id);
      else if (!(await this.#move(folder, row))) return 'not-movable';
    }
    return null;
  }

  async #move(folder: string, row: StoredIncoming): Promise<boolean> {
    const { store, log } = this.#parts;
    let { movedTo } = row;
    if (await exists(join(folder, movedTo))) {
      movedTo = await freePlace(folder, movedTo.startsWith(TAKEN) ? TAKEN : REFUSED, row.name);
      await moveElsewhere(store, row.id, movedTo);
    }
    try {
      await moveInto(join(folder, row.name), join(folder, movedTo));
      await this.#tell(folder, { ...row, movedTo });
    } catch (error) {
      log.error({ error }, 'a file of the watched folder cannot be moved');
      return false;
    }
    await noteMoved(store, row.id);
    return true;
  }

  async #tell(folder: string, row: StoredIncoming): Promise<void> {
    if (row.state === 'stored') return;
    const { language, timeZone } = this.#parts.shops.current;
    const { name, state, problems, counts, at } = row;
    const more = Math.max(0, counts.refused - problems.length);
    const text = incomingText({ name, state, problems, more, when: minuteOf(at, timeZone) }, language);
    await writeText(join(folder, beside(row.movedTo)), text);
  }

  /** Ends what a killed server has begun; a file that still lies in the folder is found by looking. */
  async #recover(): Promise<void> {
    const { folder } = this;
    for (const row of await unmovedIncoming(this.#parts.store)) {
      if (await exists(join(folder, row.name))) continue;
      const isThere = await exists(join(folder, row.movedTo));
      if (isThere && !(await exists(join(folder, beside(row.movedTo))))) await this.#tell(folder, row);
      await noteMoved(this.#parts.store, row.id);
    }
  }
}

const NOTHING = { added: 0, changed: 0, unchanged: 0, refused: 0 };

/** "2026-11-25 16:40" on the shop's clock */
function minuteOf(at: number, timeZone: string): string {
  const { year, month, day, hour, minute } = wallTimeAt(at, timeZone);
  const two = (number: number): string => String(number).padStart(2, '0');
  return `${String(year)}-${two(month)}-${two(day)} ${two(hour)}:${two(minute)}`;
}
