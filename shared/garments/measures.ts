import type { Cloth, FlatMeasures, Kind, Piece, Wardrobe } from './types.ts';
import { GarmentError } from './garment-error.ts';

/**
 * The piece's kind.
 * @throws GarmentError unknown-kind
 */
export function kindOf(piece: Piece, wardrobe: Wardrobe): Kind {
  const kind = wardrobe.kinds.get(piece.kind);
  if (kind !== undefined) return kind;
  const known = [...wardrobe.kinds.keys()].join(', ');
  throw new GarmentError('unknown-kind', `piece ${piece.sku}: expected a kind of ${known}, found "${piece.kind}"`);
}

/**
 * The piece's cloth, or its kind's when the piece names none.
 * @throws GarmentError unknown-kind or unknown-cloth
 */
export function clothOf(piece: Piece, wardrobe: Wardrobe): Cloth {
  const named = piece.cloth ?? kindOf(piece, wardrobe).defaultCloth;
  const cloth = wardrobe.cloths.get(named);
  if (cloth !== undefined) return cloth;
  const known = [...wardrobe.cloths.keys()].join(', ');
  throw new GarmentError('unknown-cloth', `piece ${piece.sku}: expected a cloth of ${known}, found "${named}"`);
}

/** A size as it may be written, "w34 l32", "34 X 32" or " m ", in the one form that a kind's table uses: "34X32", "M". */
function sizeKey(text: string): string {
  return text
    .trim()
    .toUpperCase()
    .replace(/^W\s*(\d+)\s*[/X-]?\s*L\s*(\d+)$/, '$1X$2')
    .replace(/\s*([X/])\s*(?=\d)/g, '$1')
    .replace('/', 'X');
}

const INCH = 25.4;

/** The measures of a size that the kind's table has, or that follow from its waist by another inseam; or null. */
export function measuresOfSize(kind: Kind, size: string): FlatMeasures | null {
  const exact = kind.sizes[size];
  if (exact !== undefined) return exact;
  const wanted = sizeKey(size);
  let sameWaist: FlatMeasures | null = null;
  const [waist, inseam] = wanted.split('X');
  for (const [name, measures] of Object.entries(kind.sizes)) {
    const key = sizeKey(name);
    if (key === wanted) return measures;
    if (waist !== undefined && waist !== '' && key.split('X')[0] === waist) sameWaist ??= measures;
  }
  if (kind.outline !== 'legs' || sameWaist?.inseam === undefined) return null;
  if (inseam === undefined || !/^\d{2}$/.test(inseam)) return null;
  const longer = Number(inseam) * INCH - sameWaist.inseam;
  return { ...sameWaist, length: sameWaist.length + longer, inseam: sameWaist.inseam + longer };
}

/** What must be assumed about a piece: its size unless it was measured, its cloth. */
export function assumedOf(piece: Piece, wardrobe: Wardrobe): readonly ('size' | 'cloth')[] {
  const kind = kindOf(piece, wardrobe);
  const assumed: ('size' | 'cloth')[] = [];
  const measured = piece.measured?.width !== undefined && piece.measured.length !== undefined;
  const known = piece.size !== undefined && measuresOfSize(kind, piece.size) !== null;
  const onlySize = Object.keys(kind.sizes).length === 1;
  if (!measured && !known && !onlySize) assumed.push('size');
  if (piece.cloth === undefined && kind.outline !== 'block') assumed.push('cloth');
  return assumed;
}

/**
 * The flat measures of a piece in float mm: its size's (the kind's default when it has none, or one that the kind does
 * not know), overridden by what was measured on the piece itself.
 * @throws GarmentError unknown-kind, bad-measure (not above 0) or missing-measure (the kind has no default size)
 */
export function measuresOf(piece: Piece, wardrobe: Wardrobe): FlatMeasures {
  const kind = kindOf(piece, wardrobe);
  const bySize = piece.size === undefined ? null : measuresOfSize(kind, piece.size);
  const base = bySize ?? kind.sizes[kind.defaultSize];
  if (base === undefined) {
    throw new GarmentError(
      'missing-measure',
      `kind ${kind.id}: expected measures for its default size "${kind.defaultSize}", found none`,
    );
  }
  if (piece.measured === undefined) return base;
  for (const [name, value] of Object.entries(piece.measured)) {
    if (!(value > 0) || !Number.isFinite(value)) {
      throw new GarmentError('bad-measure', `piece ${piece.sku}: expected a ${name} above 0 mm, found ${value}`);
    }
  }
  return { ...base, ...piece.measured };
}
