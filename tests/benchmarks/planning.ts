import { containerLoading } from './container-loading.ts';
import { demoOrder, demoPieces, type DemoPieces } from './demo-orders.ts';
import { atMost, plain, type Figure } from './figure.ts';
import { planningLoop } from './planning-loop.ts';
import { foldsOf } from '#shared/folding/fold-piece.ts';
import { isPlanError } from '#shared/planning/plan-error.ts';
import { compared as besideSimpler } from '#shared/planning/comparison.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { Order, OrderPlan } from '#shared/planning/types.ts';
import { bruteForceCost } from '#tests/shared/planning/brute-force.ts';
import { randomOrder, randomShop } from '#tests/shared/planning/random-orders.ts';
import { DAY } from '#tests/shared/planning/small-shop.ts';
import { seeded } from '#tests/support/seeded.ts';

function planned(order: Order, { shop, bySku }: Pick<DemoPieces, 'shop' | 'bySku'>): OrderPlan | null {
  try {
    return planOrder({ order, pieces: bySku, shop, day: DAY });
  } catch (error) {
    if (!isPlanError(error)) throw error;
    return null;
  }
}

/** @param most null where there is no goal */
function figure(name: string, value: number, unit: string, most: number | null, against = 'nothing'): Figure {
  const measured = { bench: 'planning', name, value: Number(value.toPrecision(4)), unit, against };
  return most === null ? plain(measured) : atMost({ ...measured, goal: most });
}

/** Wall time of planning orders of one size, in ms. */
function measured(demo: DemoPieces, size: number, orders: number): number[] {
  const uniform = seeded(100 + size);
  return Array.from({ length: orders }, () => {
    const order = demoOrder(demo.pieces, size, uniform);
    const start = performance.now();
    planned(order, demo);
    return performance.now() - start;
  });
}

const sorted = (values: readonly number[]) => values.toSorted((a, b) => a - b);

/** The same, least first. */
const times = (demo: DemoPieces, size: number, orders: number) => sorted(measured(demo, size, orders));

/** A shop just read, of which every piece was planned once, as at a bench that has seen them; no price is known. */
async function begun(): Promise<DemoPieces> {
  const demo = await demoPieces();
  for (const piece of demo.pieces) foldsOf(piece, demo.shop.wardrobe, demo.shop.recipes);
  return demo;
}

/**
 * Each order's least time of several rounds, least first; every round begins with a shop just read. What else the computer
 * does meanwhile makes some orders of a round slow, and hardly ever the same ones again.
 */
async function leastTimes(size: number, orders: number, rounds: number): Promise<number[]> {
  const all: (readonly number[])[] = [];
  for (let round = 0; round < rounds; round++) all.push(measured(await begun(), size, orders));
  return sorted((all[0] ?? []).map((_, order) => Math.min(...all.map((round) => round[order] ?? Infinity))));
}

const at = (sorted: readonly number[], part: number) => sorted[Math.floor((sorted.length - 1) * part)] ?? 0;

function savings({ shop: preferring, ...pieces }: DemoPieces, orders: number): Figure {
  // What a shop does whatever it costs would count as saved.
  const { preferences: _, ...shop } = preferring;
  const demo: DemoPieces = { ...pieces, shop };
  const uniform = seeded(1000);
  let saved = 0;
  let compared = 0;
  for (let i = 0; i < orders; i++) {
    const order = demoOrder(demo.pieces, uniform() < 0.7 ? 1 : 2 + Math.floor(2 * uniform()), uniform);
    const plan = planned(order, demo);
    const byRule = plan === null ? null : besideSimpler(plan).ladder;
    if (plan === null || byRule === null) continue;
    saved += byRule - plan.cost.total;
    compared++;
  }
  const per1000 = (saved / compared / 100) * 1000;
  const against = `lightest pouch, flat-fee card, padded, soft-pack cubic, carton; ${String(compared)} orders that both can pack`;
  return figure('expected cost saved per 1,000 orders', per1000, demo.shop.currency, null, against);
}

/** Random orders up to five pieces whose plan is dearer or cheaper than trying everything. */
function disagreements(orders: number): Figure {
  const uniform = seeded(2000);
  let wrong = 0;
  for (let i = 0; i < orders; i++) {
    const shop = randomShop(uniform);
    const { order, pieces, bySku } = randomOrder(1 + Math.floor(5 * uniform()), uniform);
    const route = { from: shop.from, to: order.to };
    const least = bruteForceCost(pieces, { shop, route, day: DAY, mayUse: () => true });
    const total = planned(order, { shop, bySku })?.cost.total ?? Infinity;
    if (total !== least && !(Math.abs(total - least) < 1e-6)) wrong++;
  }
  return figure('plans that are not the cheapest', wrong, `of ${String(orders)}`, 0, 'trying everything');
}

/** The middle time as the pieces of an order, and the kinds of container of the shop, become more. */
function growth(demo: DemoPieces): Figure[] {
  const byPieces = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((size) =>
    figure(`growth: ${String(size)} pieces, p50`, at(times(demo, size, size < 7 ? 30 : 3), 0.5), 'ms', null),
  );
  const all = [...demo.shop.containers];
  const byContainers = [3, 6, 9, all.length].map((count) => {
    const shop = { ...demo.shop, containers: new Map(all.slice(0, count)) };
    return figure(
      `growth: 3 pieces, ${String(count)} kinds of container, p50`,
      at(times({ ...demo, shop }, 3, 30), 0.5),
      'ms',
      null,
    );
  });
  return [...byPieces, ...byContainers];
}

/** Ten thousand orders as a shop has them: most of one piece, few of more than three. */
function tenThousand(demo: DemoPieces): Figure {
  const uniform = seeded(10_000);
  const start = performance.now();
  for (let i = 0; i < 10_000; i++) {
    const size = uniform() < 0.7 ? 1 : uniform() < 0.9 ? 2 + Math.floor(2 * uniform()) : 4 + Math.floor(2 * uniform());
    planned(demoOrder(demo.pieces, size, uniform), demo);
  }
  const against = '70 % of one piece, 27 % of two or three, 3 % of four or five; reasons and alternatives unread';
  return figure('10,000 orders on one core', (performance.now() - start) / 1000, 's', 20, against);
}

/** Of orders of ten pieces, of which each takes a hundred times as long as one of one piece. */
const FEW = 6;

const ROUNDS = 5;
const LEAST_OF = `each order's least of ${String(ROUNDS)} rounds, each from a shop just read`;
const LEAST_OF_THREE = "each order's least of 3 rounds, each from a shop just read";
const AS_CLOCKED = 'one round from a shop just read, with collecting garbage and whatever else the computer does';

/**
 * Speed of planning on the demo shop, agreement with trying everything, money saved against the rule of thumb, how full
 * cartons get, and how long planning holds up the server.
 */
export async function bench(): Promise<Figure[]> {
  const demo = await demoPieces();
  const cold = performance.now();
  for (const { sku } of demo.pieces)
    planned({ ...demoOrder(demo.pieces, 1, () => 0), pieces: [{ sku, count: 1 }] }, demo);
  const firstPlan = (performance.now() - cold) / demo.pieces.length;
  const one = await leastTimes(1, 1000, ROUNDS);
  const five = await leastTimes(5, 100, ROUNDS);
  const ten = await leastTimes(10, FEW, 3);
  const asClocked = times(await begun(), 1, 1000);
  return [
    figure('first plan of a piece never seen, mean', firstPlan, 'ms', null),
    figure('one piece, p50', at(one, 0.5), 'ms', 1, LEAST_OF),
    figure('one piece, p99', at(one, 0.99), 'ms', 5, LEAST_OF),
    figure('one piece, p50, as clocked', at(asClocked, 0.5), 'ms', 1, AS_CLOCKED),
    figure('one piece, p99, as clocked', at(asClocked, 0.99), 'ms', 5, AS_CLOCKED),
    figure('5 pieces, p50', at(five, 0.5), 'ms', null, LEAST_OF),
    figure('5 pieces, p99', at(five, 0.99), 'ms', 25, LEAST_OF),
    figure('10 pieces exactly, p50', at(ten, 0.5), 'ms', 500, LEAST_OF_THREE),
    figure('10 pieces exactly, most', at(ten, 1), 'ms', 500, LEAST_OF_THREE),
    tenThousand(demo),
    ...growth(demo),
    savings(demo, 1000),
    disagreements(40),
    ...containerLoading(),
    ...(await planningLoop()),
  ];
}
