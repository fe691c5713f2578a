import type { FlatMeasures, Kind } from '../types.ts';
import { area } from '#shared/folding/polygon.ts';
import type { FlatGarment } from './flat-garment.ts';
import { legs, skirt, strip } from './lower-body.ts';
import { upperBody } from './upper-body.ts';

/** The kind's outline in these measures, flat on the table and face up. A `block` is its footprint. */
export function outlineOf(kind: Kind, measures: FlatMeasures): FlatGarment {
  const details = kind.details ?? [];
  const layers = Math.max(1, Math.round(kind.clothLayers));
  switch (kind.outline) {
    case 'top':
      return upperBody(measures, layers, details, ([half]) => [
        [half, measures.length],
        [0, measures.length],
      ]);
    case 'dress': {
      const flare = (measures.flareWidth ?? measures.width * 1.3) / 2;
      return upperBody(measures, layers, details, ([half, underarm]) => [
        [half * 0.88, underarm + (measures.length - underarm) * 0.22],
        [flare, measures.length],
        [0, measures.length + flare * 0.03],
      ]);
    }
    case 'legs':
      return legs(measures, layers, details);
    case 'skirt':
      return skirt(measures, layers, details);
    case 'strip':
      return strip(measures, layers);
    case 'block':
      return strip(measures, 1);
  }
}

/** Area in mm2 that the outline covers lying flat; of a block, its footprint. */
export function outlineArea(kind: Kind, measures: FlatMeasures): number {
  let whole = 0;
  for (const part of outlineOf(kind, measures).parts) if (!part.detail) whole += area(part.points);
  return whole;
}
