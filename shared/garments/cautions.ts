import { clothOf, kindOf } from './measures.ts';
import type { Piece, Wardrobe } from './types.ts';

/**
 * The cautions that the station knows, by id. `pockets-lithium`: empty the pockets, cells and aerosols must not be mailed
 * by themselves; `film-bag-children`: a film bag can smother a child; `knife`: opening or cutting; `lifting`, `lifting-care`: a heavy
 * parcel; `must-not-press`: padded shoulders, leather, sequins.
 */
export const CAUTIONS = [
  'pockets-lithium',
  'film-bag-children',
  'knife',
  'lifting',
  'lifting-care',
  'must-not-press',
] as const;

/**
 * What to be careful about with a piece: its kind's cautions, and not to press it where its kind or cloth suffers.
 * @throws GarmentError unknown-kind or unknown-cloth
 */
export function cautionsOf(piece: Piece, wardrobe: Wardrobe): readonly string[] {
  const kind = kindOf(piece, wardrobe);
  const pressable = kind.mayPress !== false && (kind.outline === 'block' || clothOf(piece, wardrobe).mayPress);
  if (pressable || kind.cautions.includes('must-not-press')) return kind.cautions;
  return [...kind.cautions, 'must-not-press'];
}
