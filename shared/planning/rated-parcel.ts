import type { Container, Fit } from '#shared/fitting/types.ts';
import type { RatedParcel } from '#shared/rating/types.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';

function shapeOf(container: Container, filled: Fit['filled']): RatedParcel['shape'] {
  const thickness = lengthFromMillimetres(filled.thickness);
  const length = lengthFromMillimetres(Math.max(filled.width, filled.length));
  const width = lengthFromMillimetres(Math.min(filled.width, filled.length));
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
  return { shape: shapeOf(container, filled), containerType: container.type, container: container.id, ...owner };
}
