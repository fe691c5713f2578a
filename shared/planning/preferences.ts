import { noRoomier } from '#shared/fitting/no-roomier.ts';
import { bagsOf, doubleBagged, liesFlatIn } from '#shared/fitting/double-bag.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Money } from '#shared/units/money.ts';

/** Anything about one piece. */
interface OfPiece {
  readonly piece: Piece;
}

/** Whether some piece is worth a sum or more; pieces without a value are not. */
function holdsWorth(items: readonly OfPiece[], sum: Money | undefined): boolean {
  return sum !== undefined && items.some(({ piece }) => piece.value !== undefined && piece.value.minor >= sum.minor);
}

/** The wraps that the shop wants around these pieces: all, unless one of them is worth so much that only some will do. */
export function wrapsWanted(shop: Shop): (items: readonly OfPiece[]) => readonly Wrap[] {
  const all = [...shop.wraps.values()];
  const above = shop.preferences?.wrapAbove;
  if (above === undefined) return () => all;
  const better = all.filter(({ id }) => above.wraps.includes(id));
  return (items) => (holdsWorth(items, above.value) ? better : all);
}

/** A pouch that alone keeps a valuable piece from nobody's knife: one of film, without padding. */
function isFilm({ type, wall }: Container): boolean {
  return type === 'pouch' && wall === 0;
}

/**
 * Whether the shop would put pieces into a container: a film pouch alone is not enough above a value, and one pouch in
 * another is not used below it.
 */
export function admittedBy(shop: Shop): (container: Container, items: readonly OfPiece[]) => boolean {
  const above = shop.preferences?.doubleBagAbove;
  return (container, items) => {
    if (container.doubled !== undefined) return holdsWorth(items, above);
    return !isFilm(container) || !holdsWorth(items, above);
  };
}

/** Shops are immutable, and prices asked before are found by the very same container. */
const doubles = new WeakMap<ReadonlyMap<string, Container>, readonly Container[]>();

function doublesOf({ containers }: Shop): readonly Container[] {
  const before = doubles.get(containers);
  if (before !== undefined) return before;
  const pouches = [...containers.values()].filter(({ type }) => type === 'pouch');
  const films = pouches.filter((each) => isFilm(each) && each.ownedBy === undefined);
  const made = pouches.flatMap((outer) =>
    films.filter((inner) => inner !== outer && liesFlatIn(inner, outer)).map((inner) => doubleBagged(inner, outer)),
  );
  doubles.set(containers, made);
  return made;
}

/** What may be packed into: the shop's containers and, where it wants them, its pouches in each other. */
export function containersOf(shop: Shop): readonly Container[] {
  const single = [...shop.containers.values()];
  return shop.preferences?.doubleBagAbove === undefined ? single : [...single, ...doublesOf(shop)];
}

/** A container of the shop or one of its double bags, by id. */
export function containerById(shop: Shop, id: string): Container | undefined {
  return shop.containers.get(id) ?? doublesOf(shop).find((each) => each.id === id);
}

/** Whether one of some ids is this container's, or that of a pouch in it. */
export function isAmong(container: Container, ids: readonly string[]): boolean {
  return ids.includes(container.id) || bagsOf(container).some((id) => ids.includes(id));
}

/**
 * Whether a container is one that was found too tight, or certainly no roomier: a double bag holds what its inner pouch
 * holds, whatever is around it. Of a double bag that was too tight nobody knows which of the two it was.
 */
export function isTooTightToo(container: Container, tooTight: readonly string[], shop: Shop): boolean {
  const { id, doubled } = container;
  if (tooTight.includes(id)) return true;
  const holds = doubled === undefined ? container : containerById(shop, doubled.inner);
  return tooTight.some((each) => {
    const other = containerById(shop, each);
    if (other === undefined || holds === undefined) return false;
    if (other.doubled === undefined) return noRoomier(holds, other);
    return doubled?.inner === other.doubled.inner;
  });
}
