import { cpSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import type { Acknowledged } from './packer.ts';
import type { PrintedJob } from '#drivers/printer/mechanism.ts';
import { openStore, type Store } from '#server/store/open.ts';
import { parcelsOf } from '#server/store/planned-parcels.ts';
import { loadBench } from '#server/store/runs.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { containersIn, usedBy } from '#shared/supplies/used-by-parcel.ts';

export interface Witnessed {
  readonly acknowledged: readonly Acknowledged[];
  /** by bench, what came out of its printer */
  readonly printed: ReadonlyMap<string, readonly PrintedJob[]>;
}

/** What was counted while looking; all that is wrong is in `broken`. */
export interface Looked {
  readonly broken: readonly string[];
  readonly inputs: number;
  readonly parcels: number;
  readonly printJobs: number;
  readonly unknownPrints: number;
}

/** Looks at a store that a killed server left, on a copy, so that the next server finds it as it was left. */
export class Invariants {
  readonly #shop: Shop;
  readonly #replayed = new Map<string, { seq: number; state: RunState }>();

  constructor(shop: Shop) {
    this.#shop = shop;
  }

  async look(data: string, witnessed: Witnessed): Promise<Looked> {
    const folder = mkdtempSync(join(tmpdir(), 'benchfold-look-'));
    for (const name of ['benchfold.db', 'benchfold.db-wal']) {
      if (existsSync(join(data, name))) cpSync(join(data, name), join(folder, name));
    }
    const store = await openStore(folder);
    try {
      const checks = [
        wholeFile(store),
        acknowledgedOnce(store, witnessed.acknowledged),
        numbersWithoutGaps(store),
        packedOnce(store),
        inHandOnce(store),
        stockOnce(store, this.#shop),
        printsConsistent(store, witnessed.printed),
        labelsConsistent(store),
        parcelsReferred(store),
        this.#replays(store),
      ];
      const broken = (await Promise.all(checks)).flat();
      const count = async (table: 'input' | 'parcel' | 'print_job') =>
        (
          await store
            .selectFrom(table)
            .select((select) => select.fn.countAll<number>().as('count'))
            .executeTakeFirstOrThrow()
        ).count;
      const unknown = await store.selectFrom('print_job').select('id').where('state', '=', 'unknown').execute();
      return {
        broken,
        inputs: await count('input'),
        parcels: await count('parcel'),
        printJobs: await count('print_job'),
        unknownPrints: unknown.length,
      };
    } finally {
      await store.destroy();
      rmSync(folder, { recursive: true, force: true });
    }
  }

  /** Takes the stored inputs again from where the last look came to: they lead to the stored state. */
  async #replays(store: Store): Promise<readonly string[]> {
    const broken: string[] = [];
    for (const bench of this.#shop.benches) {
      let { seq, state } = this.#replayed.get(bench.id) ?? { seq: 0, state: IDLE };
      const rows = await store
        .selectFrom('input')
        .selectAll()
        .where('bench', '=', bench.id)
        .where('seq', '>', seq)
        .orderBy('seq')
        .execute();
      const { division, accuracy, drift } = bench.scale;
      for (const row of rows) {
        const input = await inFull(store, JSON.parse(row.body) as RunInput);
        const due = await store
          .selectFrom('label_request')
          .select('tracking')
          .where('run', '=', state.run ?? '')
          .where('number', '=', state.parcel + 1)
          .where('ended_at', '<=', row.at)
          .orderBy('id', 'desc')
          .executeTakeFirst();
        const weigh = { division, accuracy, drift, learned: null };
        const facts = { now: row.at, labelUsedBefore: false, unasked: this.#shop.unasked ?? [], weigh };
        const bought = due?.tracking ?? null;
        const step = transition(state, input, bought === null ? facts : { ...facts, labelDue: bought });
        // That an order was refused is stored after what was asked; it moves nothing, and tells.
        if (!step.accepted && input.type !== 'order-refused')
          broken.push(`${bench.id} ${String(row.seq)}: a stored ${input.type} is refused again`);
        state = step.state;
        seq = row.seq;
      }
      this.#replayed.set(bench.id, { seq, state });
      const stored = await loadBench(store, bench.id);
      if (stored.seq !== seq) broken.push(`${bench.id}: state ${String(stored.seq)}, inputs ${String(seq)}`);
      const [one, other] = [told(state), told(stored.state)];
      const differs = Object.keys(one).filter(
        (key) => !isDeepStrictEqual(one[key as keyof typeof one], other[key as keyof typeof other]),
      );
      if (differs.length > 0) broken.push(`${bench.id} ${String(seq)}: replayed ${differs.join(', ')} otherwise`);
    }
    return broken;
  }
}

/** What only refused inputs leave behind is stored with the next one and is in none of the inputs. */
function told(state: RunState): Omit<RunState, 'notice' | 'lastScan' | 'mistakes'> {
  const { notice: _notice, lastScan: _lastScan, mistakes: _mistakes, ...rest } = state;
  return JSON.parse(JSON.stringify(rest)) as typeof rest;
}

async function inFull(store: Store, input: RunInput): Promise<RunInput> {
  if (!('plan' in input)) return input;
  const { parcels } = await parcelsOf(store, input.plan.parcels);
  return { ...input, plan: { ...input.plan, parcels } } as RunInput;
}

async function wholeFile(store: Store): Promise<readonly string[]> {
  const { rows } = await sql<{ quick_check: string }>`pragma quick_check`.execute(store);
  const { rows: foreign } = await sql`pragma foreign_key_check`.execute(store);
  const said = rows.map(({ quick_check }) => quick_check).filter((line) => line !== 'ok');
  return [...said, ...foreign.map((row) => `foreign key: ${JSON.stringify(row)}`)];
}

async function acknowledgedOnce(store: Store, acknowledged: readonly Acknowledged[]): Promise<readonly string[]> {
  const rows = await store.selectFrom('input').select(['bench', 'seq', 'id']).execute();
  const byId = new Map<string, { bench: string; seq: number }[]>();
  const last = new Map<string, number>();
  for (const row of rows) {
    byId.set(row.id, [...(byId.get(row.id) ?? []), row]);
    last.set(row.bench, Math.max(last.get(row.bench) ?? 0, row.seq));
  }
  const broken: string[] = [];
  for (const [id, stored] of byId) if (stored.length > 1) broken.push(`input ${id} is stored ${stored.length} times`);
  for (const { bench, id, seq } of acknowledged) {
    const stored = byId.get(id)?.[0];
    // An input that moved nothing is acknowledged with the number of the one before.
    if (stored !== undefined && (stored.seq !== seq || stored.bench !== bench)) {
      broken.push(`input ${id} was acknowledged as ${bench} ${String(seq)}, is stored as ${String(stored.seq)}`);
    }
    if ((last.get(bench) ?? 0) < seq) broken.push(`${bench} ${String(seq)} was acknowledged and is lost`);
  }
  return broken;
}

async function numbersWithoutGaps(store: Store): Promise<readonly string[]> {
  const rows = await store
    .selectFrom('input')
    .select((select) => [
      'bench',
      select.fn.countAll<number>().as('count'),
      select.fn.min('seq').as('first'),
      select.fn.max('seq').as('last'),
    ])
    .groupBy('bench')
    .execute();
  return rows.flatMap(({ bench, count, first, last }) =>
    first === 1 && last === count ? [] : [`${bench}: ${String(count)} inputs from ${String(first)} to ${String(last)}`],
  );
}

async function packedOnce(store: Store): Promise<readonly string[]> {
  const parcels = await store.selectFrom('parcel').select(['order_id', 'run', 'number', 'label', 'body']).execute();
  const states = await store.selectFrom('shop_order').select(['id', 'state']).execute();
  const runs = new Map<string, Map<string, number>>();
  const broken: string[] = [];
  const seen = new Set<string>();
  const labels = new Set<string>();
  const of = new Map<string, number>();
  for (const { order_id, run, number, label, body } of parcels) {
    const byRun = runs.get(order_id) ?? new Map<string, number>();
    byRun.set(run, (byRun.get(run) ?? 0) + 1);
    runs.set(order_id, byRun);
    of.set(order_id, (JSON.parse(body) as { of: number }).of);
    const key = `${run}/${String(number)}`;
    if (seen.has(key)) broken.push(`parcel ${key} is there twice`);
    seen.add(key);
    if (label !== null && labels.has(label)) broken.push(`label ${label} is on two parcels`);
    if (label !== null) labels.add(label);
  }
  for (const { id, state } of states) {
    const byRun = runs.get(id);
    if (state === 'packed' && (byRun?.size !== 1 || [...byRun.values()][0] !== of.get(id))) {
      broken.push(`order ${id} is packed with ${String(byRun?.size ?? 0)} runs`);
    }
    if (state === 'open' && byRun !== undefined) broken.push(`order ${id} is open and has parcels`);
  }
  return broken;
}

/** No order is in hand at two benches, and each that is in hand is claimed by that very bench and run. */
async function inHandOnce(store: Store): Promise<readonly string[]> {
  const benches = await store.selectFrom('bench_state').selectAll().execute();
  const orders = await store.selectFrom('shop_order').select(['id', 'state', 'bench', 'run']).execute();
  const byId = new Map(orders.map((order) => [order.id, order]));
  const held = new Map<string, string>();
  const broken: string[] = [];
  for (const { bench, body } of benches) {
    const { order, run, step } = JSON.parse(body) as RunState;
    if (order === null || step.at === 'done') continue;
    if (held.has(order.id)) broken.push(`order ${order.id} is in hand at ${bench} and ${held.get(order.id) ?? ''}`);
    held.set(order.id, bench);
    const stored = byId.get(order.id);
    if (stored?.state !== 'packing' || stored.bench !== bench || stored.run !== run) {
      broken.push(`order ${order.id} is in hand at ${bench} and stored as ${stored?.state ?? 'nothing'}`);
    }
  }
  const leases = await store.selectFrom('claim_lease').select(['order_id', 'bench', 'run']).execute();
  const leased = leases.map(({ order_id, bench, run }) => `${order_id} ${bench} ${run}`).sort();
  const packing = orders.filter(({ state }) => state === 'packing');
  const claimed = packing.map(({ id, bench, run }) => `${id} ${bench ?? ''} ${run ?? ''}`).sort();
  if (!isDeepStrictEqual(leased, claimed)) broken.push(`leases ${leased.join('; ')}, claims ${claimed.join('; ')}`);
  const begun = new Set((await store.selectFrom('run').select('id').execute()).map(({ id }) => id));
  for (const { id, state, run } of orders) {
    if (state === 'packing' && begun.has(run ?? '') && !held.has(id)) broken.push(`order ${id} is in nobody's hand`);
  }
  return broken;
}

async function stockOnce(store: Store, shop: Shop): Promise<readonly string[]> {
  const parcels = await store.selectFrom('parcel').select(['order_id', 'run', 'number', 'body']).execute();
  const moves = await store.selectFrom('stock_move').select(['item', 'kind', 'amount', 'parcel', 'after']).execute();
  const levels = await store.selectFrom('stock_level').selectAll().execute();
  const took = new Map<string, Map<string, number>>();
  for (const { item, amount, parcel } of moves) {
    if (parcel === null) continue;
    const of = took.get(parcel) ?? new Map<string, number>();
    of.set(item, -amount);
    took.set(parcel, of);
  }
  const broken: string[] = [];
  for (const { order_id, run, number, body } of parcels) {
    const key = `${order_id}/${run}/${String(number)}`;
    const { container, wrap, pieces } = JSON.parse(body) as { container: string; wrap: string; pieces: string[] };
    const containers = containersIn(container);
    const type = shop.containers.get(container)?.type ?? shop.containers.get(containers[0] ?? '')?.type ?? null;
    const due = usedBy({ containers, type, pieces: pieces.length, wrap }, shop.supplies ?? []);
    if (!isDeepStrictEqual(new Map([...due].sort()), new Map([...(took.get(key) ?? [])].sort()))) {
      broken.push(`parcel ${key} took ${JSON.stringify([...(took.get(key) ?? [])])}, not ${JSON.stringify([...due])}`);
    }
    took.delete(key);
  }
  for (const key of took.keys()) broken.push(`stock was taken for ${key}, which is no parcel`);
  for (const { item, on_hand } of levels) {
    const sum = moves.reduce((left, move) => (move.item === item ? left + move.amount : left), 0);
    if (sum !== on_hand) broken.push(`${item}: ${String(on_hand)} on the shelf, ${String(sum)} by its changes`);
  }
  return broken;
}

const text = (bytes: Uint8Array) => Buffer.from(bytes).toString('latin1');

/** What the store says was printed came out once; what nobody knows, at most once; what waits, never. */
async function printsConsistent(
  store: Store,
  printed: ReadonlyMap<string, readonly PrintedJob[]>,
): Promise<readonly string[]> {
  const jobs = await store.selectFrom('print_job').selectAll().execute();
  const broken: string[] = [];
  for (const [bench, out] of printed) {
    const whole = new Map<string, number>();
    for (const job of out) if (job.whole) whole.set(text(job.bytes), (whole.get(text(job.bytes)) ?? 0) + 1);
    const counts = new Map<string, { printed: number; perhaps: number }>();
    for (const job of jobs.filter((each) => each.bench === bench)) {
      const count = counts.get(text(job.bytes)) ?? { printed: 0, perhaps: 0 };
      if (job.state === 'printed') count.printed++;
      if (job.state === 'unknown' || job.state === 'sending') count.perhaps++;
      counts.set(text(job.bytes), count);
    }
    for (const [bytes, count] of counts) {
      const came = whole.get(bytes) ?? 0;
      whole.delete(bytes);
      if (came < count.printed) broken.push(`${bench}: a slip is said to be printed and never came out`);
      if (came > count.printed + count.perhaps) broken.push(`${bench}: a slip came out ${String(came)} times`);
    }
    if (whole.size > 0) broken.push(`${bench}: ${String(whole.size)} slips came out that the store does not know`);
  }
  const slips = new Set(jobs.filter(({ state }) => state !== 'failed').map((job) => `${job.run ?? ''}/${job.parcel}`));
  const parcels = await store.selectFrom('parcel').select(['run', 'number']).execute();
  for (const { run, number } of parcels) {
    if (!slips.has(`${run}/${String(number - 1)}`)) broken.push(`parcel ${run}/${String(number)} has no slip`);
  }
  return broken;
}

/** Of each parcel one request counts; a finished one waits for nothing any more. */
async function labelsConsistent(store: Store): Promise<readonly string[]> {
  const requests = await store.selectFrom('label_request').select(['key', 'run', 'number', 'state']).execute();
  const parcels = await store.selectFrom('parcel').select(['run', 'number']).execute();
  const finished = new Set(parcels.map(({ run, number }) => `${run}/${String(number)}`));
  const broken: string[] = [];
  const keys = new Set<string>();
  const counts = new Map<string, number>();
  for (const { key, run, number, state } of requests) {
    if (keys.has(key)) broken.push(`label key ${key} twice`);
    keys.add(key);
    const parcel = `${run}/${String(number)}`;
    if (state === 'withdrawn' || state === 'unused') continue;
    counts.set(parcel, (counts.get(parcel) ?? 0) + 1);
    if (finished.has(parcel) && (state === 'waiting' || state === 'held')) {
      broken.push(`the label of finished parcel ${parcel} still waits`);
    }
  }
  for (const [parcel, count] of counts) if (count > 1) broken.push(`${parcel}: ${String(count)} labels count`);
  return broken;
}

/** Planned parcels that nothing refers to would pile up. */
async function parcelsReferred(store: Store): Promise<readonly string[]> {
  const parcels = await store.selectFrom('planned_parcel').select(['id', 'run']).execute();
  const begun = new Set((await store.selectFrom('run').select('id').execute()).map(({ id }) => id));
  return parcels.flatMap(({ id, run }) => (begun.has(run) ? [] : [`planned parcel ${String(id)} of no run`]));
}
