/** Things as bits of a mask: bit i is the i-th thing. */
export type Group = number;

export interface Partition {
  readonly groups: readonly Group[];
  readonly cost: number;
}

/** The cheapest way to cut `all` into groups at these costs, by dynamic programming over subsets; 3^n / 2 steps. */
function cheapestAt(costs: Float64Array, fewest: Float64Array, choice: Int32Array): Partition | null {
  const all = costs.length - 1;
  for (let rest = 1; rest <= all; rest++) {
    const lowest = rest & -rest;
    let best = Infinity;
    let group = 0;
    // Every group with the lowest thing in it: any partition has exactly one of them.
    const others = rest ^ lowest;
    for (let some = others; some >= 0; some = some === 0 ? -1 : (some - 1) & others) {
      const part = some | lowest;
      const cost = (costs[part] ?? Infinity) + (fewest[rest ^ part] ?? Infinity);
      if (cost < best) {
        best = cost;
        group = part;
      }
    }
    fewest[rest] = best;
    choice[rest] = group;
  }
  const cost = fewest[all] ?? Infinity;
  if (cost === Infinity) return null;
  const groups: Group[] = [];
  for (let rest = all; rest > 0; rest ^= choice[rest] ?? rest) groups.push(choice[rest] ?? rest);
  return { groups, cost };
}

/**
 * The cheapest partition of `count` things into groups, exactly.
 *
 * Costs are found lazily: the partition that is cheapest at the bounds has its groups worked out, and the search repeats
 * until nothing at the bounds beats the best partition of known groups. A group is only asked whether it costs less than
 * what would make it part of a better partition. Each round works out one group at least: what the costs of the same groups
 * come to depends on the order in which they are added (IEEE 754), so no comparison of sums could promise an end.
 *
 * @param count up to 12 things
 * @param bound no more than the cost of the group; infinite where it cannot be
 * @param exact the cost of the group; infinite where it cannot be, or is not less than `below`
 * @returns null when there is no partition into possible groups
 */
export function cheapestPartition(
  count: number,
  bound: (group: Group) => number,
  exact: (group: Group, below: number) => number,
): Partition | null {
  const size = 2 ** count;
  const costs = new Float64Array(size);
  const isExact = new Uint8Array(size);
  for (let group = 1; group < size; group++) costs[group] = bound(group);
  const fewest = new Float64Array(size);
  const choice = new Int32Array(size);
  let best: Partition | null = null;
  for (;;) {
    const partition = cheapestAt(costs, fewest, choice);
    if (partition === null || (best !== null && partition.cost >= best.cost)) return best;
    const open = partition.groups.filter((group) => isExact[group] === 0);
    for (const group of open) {
      const others = fewest[(size - 1) ^ group] ?? 0;
      costs[group] = exact(group, (best?.cost ?? Infinity) - others);
      isExact[group] = 1;
    }
    const cost = partition.groups.reduce((sum, group) => sum + (costs[group] ?? Infinity), 0);
    if (cost < (best?.cost ?? Infinity)) best = { groups: partition.groups, cost };
    // Cheapest at the bounds, and nothing of it is a bound any more.
    if (open.length === 0) return best;
  }
}
