import type { Supply, SupplyUse } from './types.ts';
import type { ContainerType } from '#shared/fitting/types.ts';

/** What a finished parcel is made of. */
export interface PackedParcel {
  /** the container, or of a pouch in a pouch both, by id */
  readonly containers: readonly string[];
  /** of the container that the carrier sees */
  readonly type: ContainerType | null;
  readonly pieces: number;
  readonly wrap: string;
}

/** The containers behind a parcel's container id: a pouch in a pouch is written "outer+inner". */
export function containersIn(id: string): readonly string[] {
  return id.split('+');
}

function applies({ types, containers, wraps }: SupplyUse, parcel: PackedParcel): boolean {
  if (types !== undefined && (parcel.type === null || !types.includes(parcel.type))) return false;
  if (containers !== undefined && !parcel.containers.some((each) => containers.includes(each))) return false;
  return wraps === undefined || wraps.includes(parcel.wrap);
}

/** What a parcel takes of each supply, in that supply's unit; supplies that it takes nothing of are left out. */
export function usedBy(parcel: PackedParcel, supplies: readonly Supply[]): ReadonlyMap<string, number> {
  const used = new Map<string, number>();
  for (const supply of supplies) {
    let amount = parcel.containers.filter((each) => each === supply.container).length;
    for (const use of supply.uses) {
      if (applies(use, parcel)) amount += use.amount * (use.each === 'piece' ? parcel.pieces : 1);
    }
    if (amount > 0) used.set(supply.id, amount);
  }
  return used;
}
