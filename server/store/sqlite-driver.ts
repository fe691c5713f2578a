import type SqliteDatabase from 'better-sqlite3';
import { SqliteDialect, type CompiledQuery, type DatabaseConnection, type Driver, type QueryResult } from 'kysely';
import { KeptStatements } from './kept-statements.ts';
import { CommitGroup } from './commit-group.ts';
import type { LogCheckpoints } from './log-checkpoints.ts';
import type { OnDisk } from './on-disk.ts';

/** Both of one file with a write-ahead log. */
export interface SqliteFiles {
  readonly writer: SqliteDatabase.Database;
  /** sees what is committed, without waiting for a transaction that is under way */
  readonly reader: SqliteDatabase.Database;
  /** of the log */
  readonly disk: OnDisk;
  readonly checkpoints: LogCheckpoints;
}

/**
 * SQLite with one connection that writes, whose users take turns in the order in which they came, and one that reads what is
 * committed. Statements are kept ready. Transactions that ask for `SHARED_COMMIT` and wait for one another are committed
 * together: a commit waits for the disk, and all benches would wait for each other's.
 */
export class SqliteFilesDialect extends SqliteDialect {
  readonly turns: CommitGroup;
  readonly #files: SqliteFiles;

  /** @param onCommit after whatever may have been written is committed or undone */
  constructor(files: SqliteFiles, onCommit: () => void) {
    super({ database: files.writer });
    this.#files = files;
    this.turns = new CommitGroup(files.writer, files.disk, () => {
      onCommit();
      files.checkpoints.committed(this.turns);
    });
  }

  override createDriver(): Driver {
    return new SqliteFilesDriver(this.#files, this.turns);
  }
}

/** The isolation level by which a transaction says that it is short and may share its commit; SQLite's is always this. */
export const SHARED_COMMIT = 'serializable';

/** After these a kept statement may mean other columns. */
const CHANGES_TABLES = /^\s*(?:create|alter|drop)\b/i;
const READS = /^\s*(?:select|with)\b/i;

class SqliteFilesDriver implements Driver {
  readonly #files: SqliteFiles;
  readonly #group: CommitGroup;
  readonly #reading: KeptStatements;
  readonly #writing: KeptStatements;

  constructor(files: SqliteFiles, group: CommitGroup) {
    this.#files = files;
    this.#group = group;
    this.#reading = new KeptStatements(files.reader);
    this.#writing = new KeptStatements(files.writer);
  }

  init(): Promise<void> {
    return Promise.resolve();
  }

  acquireConnection(): Promise<DatabaseConnection> {
    return Promise.resolve(new Connection(this.#group, (query, within) => this.#run(query, within)));
  }

  releaseConnection(): Promise<void> {
    return Promise.resolve();
  }

  beginTransaction(connection: DatabaseConnection, settings: { readonly isolationLevel?: string }): Promise<void> {
    return connectionOf(connection).begin(settings.isolationLevel === SHARED_COMMIT);
  }

  commitTransaction(connection: DatabaseConnection): Promise<void> {
    return connectionOf(connection).commit();
  }

  rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    return connectionOf(connection).rollback();
  }

  async destroy(): Promise<void> {
    await this.#group.end();
    await this.#files.checkpoints.stop();
    this.#files.reader.close();
    this.#files.writer.close();
  }

  async #run<Row>({ sql, parameters }: CompiledQuery, within: boolean): Promise<QueryResult<Row>> {
    if (!within && READS.test(sql)) {
      const read = this.#reading.of(sql);
      // What gives rows may write, too.
      if (read.readonly) return { rows: read.all(parameters) as Row[] };
    }
    const run = (): QueryResult<Row> => {
      if (CHANGES_TABLES.test(sql)) {
        this.#reading.clear();
        this.#writing.clear();
      }
      const statement = this.#writing.of(sql);
      if (!statement.readonly) {
        this.#group.wrote();
        this.#files.checkpoints.wrote();
      }
      if (statement.reader) return { rows: statement.all(parameters) as Row[] };
      const { changes, lastInsertRowid } = statement.run(parameters);
      return { numAffectedRows: BigInt(changes), insertId: BigInt(lastInsertRowid), rows: [] };
    };
    return within ? run() : this.#group.single(run);
  }
}

function connectionOf(connection: DatabaseConnection): Connection {
  if (connection instanceof Connection) return connection;
  throw new TypeError('expected a connection of this driver');
}

type Run = <Row>(query: CompiledQuery, within: boolean) => Promise<QueryResult<Row>>;

class Connection implements DatabaseConnection {
  readonly #group: CommitGroup;
  readonly #run: Run;
  #within = false;

  constructor(group: CommitGroup, run: Run) {
    this.#group = group;
    this.#run = run;
  }

  executeQuery<Row>(query: CompiledQuery): Promise<QueryResult<Row>> {
    return this.#run(query, this.#within);
  }

  async *streamQuery<Row>(query: CompiledQuery): AsyncIterableIterator<QueryResult<Row>> {
    yield await this.executeQuery(query);
  }

  async begin(shares: boolean): Promise<void> {
    await this.#group.begin(shares);
    this.#within = true;
  }

  commit(): Promise<void> {
    this.#within = false;
    return this.#group.commit();
  }

  async rollback(): Promise<void> {
    // A commit that failed has undone it already.
    if (!this.#within) return;
    this.#within = false;
    await this.#group.rollback();
  }
}
