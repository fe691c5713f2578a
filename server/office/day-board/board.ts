import { Deadlines, type Deadline } from './deadlines.ts';
import { carrierName } from '../hand-over/carriers.ts';
import { benchHandOver } from '../hand-over/view.ts';
import { instantOf, wallTimeAt } from '../local-time.ts';
import type { Station } from '#server/runs/station.ts';
import { lastOrderSeconds, ordersDoneSince, unpackedOrders, type UnpackedOrder } from '#server/store/day.ts';
import type { Store } from '#server/store/open.ts';
import { paceOf, type Pace } from '#shared/day-board/pace.ts';
import { chanceInTime, riskOf, type Risk } from '#shared/day-board/risk.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { DayBench, DayBoard, DayCollection, DayOrder } from '#shared/wire/day.ts';

const PACE_FROM_ORDERS = 60;

export interface DayParts {
  readonly store: Store;
  readonly shop: Shop;
  readonly stations: ReadonlyMap<string, Station>;
  /** benches that other servers serve */
  readonly elsewhere?: readonly DayBench[];
  readonly now: number;
}

interface Due extends UnpackedOrder {
  readonly deadline: Deadline;
}

/** The day as it stands: orders by collection with their risk, benches and who is on them, devices in trouble. */
export async function dayBoard({ store, shop, stations, elsewhere = [], now }: DayParts): Promise<DayBoard> {
  const deadlines = new Deadlines(shop);
  const due = (await unpackedOrders(store))
    .map((each): Due => ({ ...each, deadline: deadlines.of(each.order) }))
    .sort((a, b) => compare(a.deadline.at, b.deadline.at) || compare(a.order.id, b.order.id));
  const pace = paceOf(await lastOrderSeconds(store, PACE_FROM_ORDERS));
  const here = [...stations.values()].map((station) => benchOf(station, shop));
  const place = new Map(shop.benches.map(({ id }, index) => [id, index]));
  const benches = [...here, ...elsewhere].sort((a, b) => (place.get(a.id) ?? 0) - (place.get(b.id) ?? 0));
  const working = Math.max(1, benches.filter(({ packer, order }) => packer !== null || order !== null).length);
  const orders = ordersOf(due, pace, working, now);
  const today = { ...wallTimeAt(now, shop.timeZone), hour: 0, minute: 0 };
  return {
    now,
    timeZone: shop.timeZone,
    pace,
    working,
    doneToday: await ordersDoneSince(store, instantOf(today, shop.timeZone)),
    overdue: (await benchHandOver(store, shop, '', now)).overdue,
    benches,
    collections: collectionsOf(due, orders, { pace, working, shop }),
    orders,
  };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** In the order in which they will be packed: what is at a bench comes first. */
function ordersOf(due: readonly Due[], pace: Pace, working: number, now: number): readonly DayOrder[] {
  const packing = due.filter(({ state }) => state === 'packing').length;
  let place = packing;
  return due.map(({ order, state, bench, reason, deadline }): DayOrder => {
    const left = (Date.parse(deadline.at) - now) / 1000;
    const chance = state === 'set-aside' ? null : chanceInTime(state === 'packing' ? 1 : ++place, working, pace, left);
    return {
      id: order.id,
      buyer: order.buyer,
      pieces: order.pieces.reduce((sum, line) => sum + line.count, 0),
      collection: deadline.at,
      state,
      bench,
      reason,
      chance: chance === null ? null : Math.round(chance * 20) * 5,
      risk: chance === null ? null : riskOf(chance, left),
    };
  });
}

function collectionsOf(
  due: readonly Due[],
  orders: readonly DayOrder[],
  { pace, working, shop }: { readonly pace: Pace; readonly working: number; readonly shop: Shop },
): readonly DayCollection[] {
  const byKey = new Map<string, { carriers: Set<string>; orders: DayOrder[] }>();
  for (const [index, { deadline }] of due.entries()) {
    const group = byKey.get(deadline.at) ?? { carriers: new Set<string>(), orders: [] };
    for (const carrier of deadline.carriers) group.carriers.add(carrier);
    const order = orders[index];
    if (order !== undefined) group.orders.push(order);
    byKey.set(deadline.at, group);
  }
  let before = 0;
  return [...byKey].map(([key, group]): DayCollection => {
    const count = (state: DayOrder['state']) => group.orders.filter((each) => each.state === state).length;
    const risks: Record<Risk, number> = { missed: 0, late: 0, tight: 0, safe: 0 };
    for (const { risk } of group.orders) if (risk !== null) risks[risk] += 1;
    before += count('open') + count('packing');
    return {
      key,
      carriers: [...group.carriers].map((carrier) => carrierName(shop, carrier)),
      waiting: count('open'),
      packing: count('packing'),
      setAside: count('set-aside'),
      risks,
      needs: Math.ceil(before / working) * pace.mean,
    };
  });
}

/** A bench as the board shows it. */
export function benchOf({ bench, run, devices, help }: Station, shop: Shop): DayBench {
  const { packer, step, order, startedAt } = run.state;
  return {
    id: bench.id,
    name: bench.name,
    packer: shop.staff.find(({ id }) => id === packer)?.name ?? packer,
    step: step.at,
    order: order?.id ?? null,
    since: order === null ? null : startedAt,
    help: help.open,
    trouble: devices.health().filter(({ state }) => state !== 'working'),
  };
}
