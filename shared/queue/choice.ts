/** An order that waits, as far as its turn goes by it. */
export interface WaitingOrder {
  readonly id: string;
  /** when it is collected, epoch ms */
  readonly collection: number;
  /** id of the container that its first parcel is planned to go into; null while that is not known */
  readonly container: string | null;
  /** where its first piece lies; null where nobody said it */
  readonly shelf: string | null;
  /** when it came in, epoch ms */
  readonly cameAt: number;
}

/** What a bench has just done: what lies ready there, and where its packer stands. */
export interface BenchBefore {
  readonly container: string | null;
  readonly shelf: string | null;
}

/** By what one order goes before another, the strongest first. */
export const TURN_RULES = ['collection', 'container', 'shelf', 'age'] as const;
export type TurnRule = (typeof TURN_RULES)[number];

const same = (is: string | null, was: string | null): boolean => is !== null && is === was;
const first = (a: boolean, b: boolean): number => Number(b) - Number(a);

const RULES: Readonly<Record<TurnRule, (a: WaitingOrder, b: WaitingOrder, before: BenchBefore) => number>> = {
  collection: (a, b) => a.collection - b.collection,
  container: (a, b, before) => first(same(a.container, before.container), same(b.container, before.container)),
  shelf: (a, b, before) => first(same(a.shelf, before.shelf), same(b.shelf, before.shelf)),
  age: (a, b) => a.cameAt - b.cameAt || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0),
};

/**
 * Which of two orders is next at a bench; negative: the first. What is collected sooner goes first, then what goes into the
 * container that the bench's last parcel went into, then what lies on the shelf where its last pieces lay, then what came in
 * first. A total order: only an order itself is equal to it.
 */
export function compareTurns(a: WaitingOrder, b: WaitingOrder, before: BenchBefore): number {
  for (const rule of TURN_RULES) {
    const order = RULES[rule](a, b, before);
    if (order !== 0) return order;
  }
  return 0;
}

/** The first orders of a bench's queue, in their turn; one pass over all that wait. */
export function firstInTurn<Order extends WaitingOrder>(
  waiting: Iterable<Order>,
  before: BenchBefore,
  most: number,
): readonly Order[] {
  const best: Order[] = [];
  for (const order of waiting) {
    const last = best.length >= most ? best.at(-1) : undefined;
    // Of thousands that wait nearly all leave later than the first few: that is seen without the other rules.
    if (last !== undefined && (order.collection > last.collection || compareTurns(last, order, before) <= 0)) continue;
    const at = best.findIndex((each) => compareTurns(order, each, before) < 0);
    best.splice(at === -1 ? best.length : at, 0, order);
    if (best.length > most) best.pop();
  }
  return best;
}

/** Why an order is the next one here. */
export interface WhyNext {
  readonly sameContainer: boolean;
  readonly sameShelf: boolean;
  /** by what it goes before the one after it; null where nothing else waits */
  readonly by: TurnRule | null;
}

export function whyNext(next: WaitingOrder, following: WaitingOrder | undefined, before: BenchBefore): WhyNext {
  return {
    sameContainer: same(next.container, before.container),
    sameShelf: same(next.shelf, before.shelf),
    by:
      following === undefined ? null : (TURN_RULES.find((rule) => RULES[rule](next, following, before) !== 0) ?? 'age'),
  };
}
