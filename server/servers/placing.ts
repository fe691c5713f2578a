import type { Serving } from '#server/store/server-leases.ts';

/** Benches of the shop that nobody has and that are this server's to take: those whose devices are at it, or at no server that lives. */
export function benchesToTake(me: string, { servers, benches }: Serving, all: readonly string[]): readonly string[] {
  const free = all.filter((bench) => !benches.has(bench));
  const wantedBy = (bench: string) => servers.filter(({ wants }) => wants?.includes(bench) === true);
  return free.filter((bench) => {
    const named = wantedBy(bench);
    return named.length === 0 || named.some(({ id }) => id === me);
  });
}

/** Benches that this server has in another's place, who is there again. */
export function benchesToGiveBack(me: string, { servers, benches }: Serving): readonly string[] {
  const named = (id: string, bench: string) => servers.find((each) => each.id === id)?.wants?.includes(bench) === true;
  return [...benches].flatMap(([bench, server]) =>
    server === me && !named(me, bench) && servers.some(({ id }) => id !== me && named(id, bench)) ? [bench] : [],
  );
}
