import { createAdapter } from '@socket.io/postgres-adapter';
import type { Logger } from 'pino';
import type { Server } from 'socket.io';
import { benchOf } from '#server/office/day-board/board.ts';
import type { Answered, PassedOn } from './own-app.ts';
import type { Station } from '#server/runs/station.ts';
import { poolOf } from '#server/store/postgres/connect.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { DayBench } from '#shared/wire/day.ts';

export interface OtherServersParts {
  readonly io: Server;
  readonly database: string;
  /** of this server */
  readonly id: string;
  readonly stations: ReadonlyMap<string, Station>;
  readonly shop: () => Shop;
  /** something became known of a label of a bench that is here */
  readonly onLabelNews: (bench: string) => void;
  /** another server passes on what is asked of a bench that is here */
  readonly onAsked: (asked: PassedOn) => Promise<Answered>;
  readonly log: Logger;
}

const LOOK_EVERY_MS = 1_000;
/** Also when nothing is different, so that silence means a server that is gone. */
const AT_LEAST_EVERY_MS = 3_000;
const FORGOTTEN_AFTER_MS = 7_000;
const CONNECTIONS = 4;

/** What the servers of a shop tell each other, over the database that they share. */
export class OtherServers {
  readonly #parts: OtherServersParts;
  readonly #pool;
  readonly #timer: NodeJS.Timeout;
  readonly #heard = new Map<string, { readonly rows: readonly DayBench[]; readonly at: number }>();
  #told = '';
  #toldAt = 0;

  constructor(parts: OtherServersParts) {
    this.#parts = parts;
    const { io, log } = parts;
    this.#pool = poolOf(parts.database, CONNECTIONS);
    const errorHandler = (error: Error) => log.warn({ why: error.message }, 'what other servers say cannot be heard');
    io.adapter(createAdapter(this.#pool, { errorHandler }));
    io.on('benches', (server: string, rows: readonly DayBench[]) => {
      this.#heard.set(server, { rows, at: performance.now() });
    });
    io.on('label-news', (bench: string) => {
      if (parts.stations.has(bench)) parts.onLabelNews(bench);
    });
    io.on('ask', (asked: PassedOn, answer: (answered: Answered | null) => void) => {
      if (asked.bench !== null && !parts.stations.has(asked.bench)) {
        answer(null);
        return;
      }
      parts.onAsked(asked).then(answer, (error: unknown) => {
        log.error({ error }, 'what another server passed on could not be answered');
        answer(null);
      });
    });
    this.#timer = setInterval(() => this.#tell(), LOOK_EVERY_MS);
    this.#timer.unref();
  }

  /** What the servers answer that are meant; of those that do not answer in time, nothing. */
  ask(asked: PassedOn): Promise<readonly Answered[]> {
    return new Promise((done) => {
      const heard = (_late: Error | null, answers: readonly (Answered | null)[] = []) =>
        done(answers.filter((each) => each !== null));
      this.#parts.io.serverSideEmit('ask', asked, heard);
    });
  }

  /** Benches that are served elsewhere, as the day board shows them. */
  benches(): readonly DayBench[] {
    const now = performance.now();
    const { stations } = this.#parts;
    return [...this.#heard.values()]
      .filter(({ at }) => now - at < FORGOTTEN_AFTER_MS)
      .flatMap(({ rows }) => rows)
      .filter(({ id }) => !stations.has(id));
  }

  labelNews(bench: string): void {
    this.#parts.io.serverSideEmit('label-news', bench);
  }

  /** Once the sockets are closed. */
  async stop(): Promise<void> {
    clearInterval(this.#timer);
    await this.#pool.end();
  }

  #tell(): void {
    const { io, id, stations, shop } = this.#parts;
    const rows = [...stations.values()].map((station) => benchOf(station, shop()));
    const text = JSON.stringify(rows);
    const now = performance.now();
    if (text === this.#told && now - this.#toldAt < AT_LEAST_EVERY_MS) return;
    this.#told = text;
    this.#toldAt = now;
    io.serverSideEmit('benches', id, rows);
  }
}
