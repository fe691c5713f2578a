import fc from 'fast-check';
import type pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { WaitingOrders } from '#server/queue/waiting-orders.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { openPostgres, type Store, type StoreOrTransaction } from '#server/store/open.ts';
import { saveOrder } from '#server/store/orders.ts';
import { poolOf } from '#server/store/postgres/connect.ts';
import { OrderChanges } from '#server/store/postgres/order-changes.ts';
import { demoOrder, demoPieces } from '#tests/benchmarks/demo-orders.ts';
import { seeded } from '#tests/support/seeded.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { databaseOf } from '#tests/support/shared-cluster.ts';

// What other servers write, in transactions that overlap in every way: PostgreSQL alone.

const ORDERS = 9;
const OTHERS = 2;
const shop = loadShop('config');
const data = temporaryFolder('order-changes');
const unplanned = () => ({ container: null, parcels: null });
let store: Store;
let pool: pg.Pool;
let others: pg.PoolClient[];

beforeAll(async () => {
  const address = await databaseOf(data.path);
  store = await openPostgres(address);
  pool = poolOf(address, OTHERS);
  others = await Promise.all(Array.from({ length: OTHERS }, () => pool.connect()));
  const { pieces } = await demoPieces();
  for (let at = 0; at < ORDERS; at++) {
    await saveOrder(store, { ...demoOrder(pieces, 1, seeded(at)), id: `order-${String(at)}` }, at);
  }
}, 60_000);
afterAll(async () => {
  for (const other of others) other.release();
  await pool.end();
  await store.destroy();
  data.remove();
});

/** Each writes orders of its own, so that none waits for another. */
const orderOf = (writer: number, which: number) => `order-${String(which * (OTHERS + 1) + writer)}`;
const WRITE = `update shop_order set state = case state when 'open' then 'packing' else 'open' end, version = version + 1
  where id = $1`;

async function known(waiting: WaitingOrders, within: StoreOrTransaction = store): Promise<readonly string[]> {
  await waiting.follow(within);
  return [...waiting.all.values()].map(({ id, version }) => `${id} ${String(version)}`).sort();
}

const step = fc.oneof(
  { weight: 4, arbitrary: fc.record({ do: fc.constant('write' as const), by: fc.nat(OTHERS - 1), which: fc.nat(2) }) },
  {
    weight: 2,
    arbitrary: fc.record({ do: fc.constantFrom('commit' as const, 'rollback' as const), by: fc.nat(OTHERS - 1) }),
  },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('look' as const) }) },
  // This server's own transaction, which looks at the queue after what it has written itself, and is kept or undone.
  { weight: 1, arbitrary: fc.record({ do: fc.constant('within' as const), which: fc.nat(2), kept: fc.boolean() }) },
);

it('are seen once they are committed, however late that is, and as the store has them', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 8, maxLength: 24 }), async (steps) => {
      const waiting = new WaitingOrders(() => shop, unplanned);
      const isOpen = others.map(() => false);
      const look = async () => {
        const anew = await known(new WaitingOrders(() => shop, unplanned));
        expect(await known(waiting)).toEqual(anew);
      };
      const end = async (by: number, how: 'commit' | 'rollback') => {
        if (isOpen[by] === true) await others[by]?.query(how);
        isOpen[by] = false;
      };
      try {
        await look();
        for (const each of steps) {
          if (each.do === 'look') await look();
          else if (each.do === 'write') {
            if (isOpen[each.by] !== true) await others[each.by]?.query('begin');
            isOpen[each.by] = true;
            await others[each.by]?.query(WRITE, [orderOf(each.by, each.which)]);
          } else if (each.do === 'within') {
            await inTransaction(store, async (transaction) => {
              const id = orderOf(OTHERS, each.which);
              await transaction
                .updateTable('shop_order')
                .set(({ eb }) => ({ state: 'open', version: eb('version', '+', 1) }))
                .where('id', '=', id)
                .execute();
              expect((await known(waiting, transaction)).some((order) => order.startsWith(`${id} `))).toBe(true);
              if (!each.kept) throw new Error('thought better of it');
            }).catch((error: unknown) => expect(String(error)).toContain('thought better'));
          } else await end(each.by, each.do);
        }
        for (const by of others.keys()) await end(by, 'commit');
        await look();
      } finally {
        for (const by of others.keys()) await end(by, 'rollback');
      }
    }),
    { numRuns: 12 },
  );
});

it('only what was written since is told, and of one that was begun before and committed after, too', async () => {
  const changes = new OrderChanges();
  const told = async () => {
    await changes.look(store);
    const due = changes.touched.due(false);
    changes.touched.done(due);
    return due.orders === null ? 'all' : [...due.orders.keys()];
  };
  expect(await told()).toBe('all');
  expect(await told()).toEqual([]);
  const [late, quick] = others;
  await late?.query('begin');
  await late?.query(WRITE, ['order-0']);
  await quick?.query(WRITE, ['order-1']);
  expect(await told()).toEqual(['order-1']);
  expect(await told()).toEqual([]);
  await late?.query('commit');
  expect(await told()).toEqual(['order-0']);
  await quick?.query(
    "insert into shop_order select * from shop_order where false; delete from shop_order where id = 'order-8'",
  );
  expect(await told()).toEqual(['order-8']);
  expect(await told()).toEqual([]);
});

it('a database that was restored from another one’s copy tells nothing for ever', async () => {
  await others[0]?.query("update order_written set written_by = '9000000000000' where order_id = 'order-2'");
  const changes = new OrderChanges();
  for (const _ of [1, 2]) {
    await changes.look(store);
    changes.touched.done(changes.touched.due(false));
  }
  await changes.look(store);
  expect([...(changes.touched.due(false).orders?.keys() ?? [])]).toEqual([]);
});
