import type SqliteDatabase from 'better-sqlite3';
import type { OnDisk } from './on-disk.ts';
import type { StoreOrTransaction } from './open.ts';
import type { StoreError } from './store-error.ts';

/** The first of them has waited for so many others at most. */
const MOST_TOGETHER = 16;

interface Member {
  readonly done: () => void;
  readonly failed: (error: unknown) => void;
}

interface Waiting {
  readonly shares: boolean;
  readonly turn: () => void;
}

/**
 * The transactions of one SQLite connection, one after the other in the order in which they came. Those that share and come
 * within one turn of the loop are parts (savepoints) of one transaction; then it is committed, and once that is on the disk
 * each of them is told that it is. Where the commit fails, all of them have failed, and nothing of them is there. Others go on
 * while the disk works, and are told after it.
 */
export class CommitGroup {
  readonly #file: SqliteDatabase.Database;
  readonly #onCommit: () => void;
  readonly #disk: OnDisk;
  readonly #waiting: Waiting[] = [];
  #taken = false;
  /** parts are there, none is under way, and the commit comes when this turn of the loop is over */
  #lingers = false;
  #shares = false;
  /** ended, and not committed yet */
  #members: Member[] = [];
  /** something was written that is not committed yet */
  #wrote = false;

  /** @param disk of the log that commits are written into */
  constructor(file: SqliteDatabase.Database, disk: OnDisk, onCommit: () => void) {
    this.#file = file;
    this.#disk = disk;
    this.#onCommit = onCommit;
  }

  /** Hears once that the disk has refused what was committed: nothing is written from then on. */
  onLost(heard: (error: StoreError) => void): void {
    this.#disk.onLost(heard);
  }

  /** Whoever has the turn writes. */
  wrote(): void {
    this.#wrote = true;
  }

  /** @param shares it is short and may be committed with others */
  async begin(shares: boolean): Promise<void> {
    await this.#turn(shares);
    this.#shares = shares;
    try {
      if (!this.#file.inTransaction) this.#file.exec('begin');
      if (shares) this.#file.exec('savepoint part');
    } catch (error) {
      this.#lost(error);
      throw error;
    }
  }

  /** @throws when it could not be committed: then nothing of it is there */
  commit(): Promise<void> {
    return new Promise((done, failed) => {
      try {
        if (this.#shares) this.#file.exec('release part');
      } catch (error) {
        this.#members.push({ done, failed });
        this.#lost(error);
        return;
      }
      this.#members.push({ done, failed });
      this.#goOn();
    });
  }

  rollback(): Promise<void> {
    // A full disk ends the whole transaction by itself.
    if (!this.#file.inTransaction) this.#lost(new Error('the store gave up what was to be committed together'));
    else if (this.#shares) {
      this.#file.exec('rollback to part; release part');
      this.#goOn();
    } else {
      this.#file.exec('rollback');
      this.#end();
    }
    return Promise.resolve();
  }

  /** One statement by itself. */
  async single<Result>(run: () => Result): Promise<Result> {
    await this.#turn(false);
    let result: Result;
    try {
      result = run();
    } finally {
      this.#end();
    }
    await this.#kept();
    return result;
  }

  /** Another connection has the file to itself: whoever wants to write here waits for it. */
  async alone<Result>(work: (path: string) => Promise<Result>): Promise<Result> {
    await this.#turn(false);
    try {
      return await work(this.#file.name);
    } finally {
      this.#end();
    }
  }

  /** Commits what still waits for it, and lets the disk have it. */
  async end(): Promise<void> {
    if (this.#lingers) this.#commit();
    await this.#disk.written().catch(() => undefined);
    this.#disk.close();
  }

  async #turn(shares: boolean): Promise<void> {
    if (this.#lingers && !shares) this.#commit();
    if (this.#taken) await new Promise<void>((turn) => this.#waiting.push({ shares, turn }));
    this.#taken = true;
    this.#lingers = false;
    try {
      this.#disk.check();
    } catch (error) {
      this.#lost(error);
      throw error;
    }
  }

  /** Lets the next one add its part, or commits. */
  #goOn(): void {
    const [next] = this.#waiting;
    if (!this.#shares || this.#members.length >= MOST_TOGETHER || next?.shares === false) this.#commit();
    else if (next !== undefined) {
      this.#waiting.shift();
      next.turn();
    } else {
      this.#taken = false;
      this.#lingers = true;
      // By then what all other sockets have brought in the meantime has been read.
      setImmediate(() => {
        if (this.#lingers) this.#commit();
      });
    }
  }

  #commit(): void {
    this.#lingers = false;
    const members = this.#members;
    this.#members = [];
    try {
      this.#file.exec('commit');
      this.#kept().then(
        () => {
          for (const { done } of members) done();
        },
        (error: unknown) => {
          for (const { failed } of members) failed(error);
        },
      );
    } catch (error) {
      if (this.#file.inTransaction) this.#file.exec('rollback');
      for (const { failed } of members) failed(error);
    }
    this.#end();
  }

  /** Once what was committed is on the disk; at once where nothing was. */
  #kept(): Promise<void> {
    if (!this.#wrote) return Promise.resolve();
    this.#wrote = false;
    return this.#disk.written();
  }

  #lost(error: unknown): void {
    const members = this.#members;
    this.#members = [];
    if (this.#file.inTransaction) this.#file.exec('rollback');
    for (const { failed } of members) failed(error);
    this.#end();
  }

  #end(): void {
    this.#onCommit();
    // It stays taken: who comes in between waits behind those who wait already.
    const next = this.#waiting.shift();
    if (next === undefined) this.#taken = false;
    else next.turn();
  }
}

const known = new WeakMap<object, CommitGroup>();

export function keepTurns(store: StoreOrTransaction, turns: CommitGroup): void {
  known.set(store.getExecutor().adapter, turns);
}

/** Whose turn it is to write into a SQLite file; null of PostgreSQL. */
export function turnsOf(store: StoreOrTransaction): CommitGroup | null {
  return known.get(store.getExecutor().adapter) ?? null;
}
