import { admittedBy, containersOf, isAmong, wrapsWanted } from '#shared/planning/preferences.ts';
import type { ParcelPlan } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { subtractMass, timesMass, type Mass } from '#shared/units/mass.ts';
import type { Localised } from '#shared/words/language.ts';

export interface LighterChoice {
  readonly what: Localised;
  readonly mass: Mass;
}

/**
 * What can be left out or changed on this parcel, and how much it takes off: a lighter wrap, or a lighter container of the
 * same type that is no smaller inside; only what the shop would use for these pieces and has. Smallest change first; three at
 * most.
 */
export function lighterChoices(parcel: ParcelPlan, shop: Shop): readonly LighterChoice[] {
  const count = parcel.pieces.length;
  const wraps = wrapsWanted(shop)(parcel.pieces)
    .filter((wrap) => wrap.massPerPiece < parcel.wrap.massPerPiece)
    .map((wrap) => ({
      what: wrap.name,
      mass: timesMass(subtractMass(parcel.wrap.massPerPiece, wrap.massPerPiece), count),
    }));
  const { container } = parcel;
  const admits = admittedBy(shop);
  const containers = containersOf(shop)
    .filter((other) => admits(other, parcel.pieces) && !isAmong(other, shop.outOfStock ?? []))
    .filter((other) => other.type === container.type && other.ownedBy === container.ownedBy)
    .filter((other) => other.mass < container.mass && holdsAsMuch(other.inside, container.inside))
    .map((other) => ({ what: other.name, mass: subtractMass(container.mass, other.mass) }));
  return [...wraps, ...containers].sort((a, b) => a.mass - b.mass).slice(0, 3);
}

type Inside = ParcelPlan['container']['inside'];

function holdsAsMuch(other: Inside, than: Inside): boolean {
  return other.width >= than.width && other.length >= than.length && (other.depth ?? 0) >= (than.depth ?? 0);
}
