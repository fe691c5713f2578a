import type { Container, Fit } from '#shared/fitting/types.ts';
import type { RatedParcel } from '#shared/rating/types.ts';
import { lengthFromMillimetres, toMillimetres, type Length } from '#shared/units/length.ts';

/** A twentieth of an inch: as fine as a tape measure is read. */
const READ_TO = 1.27;
/** What a float may miss a multiple by, so that 12 in is not read as a twentieth more. */
const SLIP = 1e-6;

function readUp(millimetres: number): number {
  return Math.ceil(millimetres / READ_TO - SLIP) * READ_TO;
}

/**
 * The filled size as somebody reads it off a tape: up to the next twentieth of an inch, but a side that filling does not
 * change, or only draws in, never above that of the empty container. Few sizes then differ, and prices asked before serve again.
 */
export function measuredSize(container: Container, filled: Fit['filled']): Fit['filled'] {
  if (container.type === 'carton') return filled;
  const { outside } = container;
  return {
    width: Math.min(readUp(filled.width), Math.max(toMillimetres(outside.width), filled.width)),
    length: Math.min(readUp(filled.length), Math.max(toMillimetres(outside.length), filled.length)),
    thickness: readUp(filled.thickness),
  };
}

function shapeOf(container: Container, filled: Fit['filled']): RatedParcel['shape'] {
  const size = measuredSize(container, filled);
  const thickness = lengthFromMillimetres(size.thickness);
  const sides = [lengthFromMillimetres(size.width), lengthFromMillimetres(size.length)] as const;
  const [length, width]: readonly [Length, Length] = sides[0] > sides[1] ? sides : [sides[1], sides[0]];
  if (container.type !== 'carton') return { form: 'soft', length, width, thickness };
  if (thickness <= width) return { form: 'box', sides: [length, width, thickness] };
  return { form: 'box', sides: thickness <= length ? [length, thickness, width] : [thickness, length, width] };
}

/**
 * The filled container as a carrier measures it: a carton by three sides, longest first; a pouch or a card as a soft pack
 * by length, width and thickness.
 */
export function ratedParcel(container: Container, filled: Fit['filled']): RatedParcel {
  const owner = container.ownedBy === undefined ? {} : { containerOwner: container.ownedBy };
  const id = container.doubled?.outer ?? container.id;
  return { shape: shapeOf(container, filled), containerType: container.type, container: id, ...owner };
}
