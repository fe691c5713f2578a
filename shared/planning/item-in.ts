import { itemFrom, type Item } from './item.ts';
import { fitStack } from '#shared/fitting/fit-stack.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';

/** By item, container and wrap; null where no fold of it goes in. All are immutable, so nothing goes stale. */
const known = new WeakMap<Item, Map<Container, Map<Wrap, Item | null>>>();

function made(item: Item, container: Container, wrap: Wrap): Item | null {
  const folds = item.folds.filter((fold) => fitStack([fold.block], container, wrap).verdict !== 'no');
  if (folds.length === item.folds.length) return item;
  return folds.length === 0 ? null : itemFrom(item.piece, item.mass, folds);
}

/**
 * An item as it can go into a container: with those of its folds that fit there alone, for what does not fit alone fits
 * with nothing else either. Null when no fold does.
 */
export function itemIn(item: Item, container: Container, wrap: Wrap): Item | null {
  let byContainer = known.get(item);
  if (byContainer === undefined) known.set(item, (byContainer = new Map<Container, Map<Wrap, Item | null>>()));
  let byWrap = byContainer.get(container);
  if (byWrap === undefined) byContainer.set(container, (byWrap = new Map<Wrap, Item | null>()));
  let found = byWrap.get(wrap);
  if (found === undefined) byWrap.set(wrap, (found = made(item, container, wrap)));
  return found;
}
