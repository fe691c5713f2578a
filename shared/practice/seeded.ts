/** A row of numbers in [0, 1) that a seed decides (mulberry32, public domain): the core has no randomness of its own. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export function pick<Each>(from: readonly Each[], next: () => number): Each | undefined {
  return from[Math.floor(next() * from.length)];
}

export function shuffled<Each>(list: readonly Each[], next: () => number): readonly Each[] {
  return list
    .map((each) => ({ each, by: next() }))
    .sort((a, b) => a.by - b.by)
    .map(({ each }) => each);
}
