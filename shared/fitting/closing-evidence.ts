import { closingScore } from './fit-stack.ts';
import type { Container, Wrap } from './types.ts';
import type { FoldedBlock } from '#shared/folding/types.ts';
import type { ClosingEvidence } from '#shared/garments/factor-learning.ts';

/** A folded piece as the sums have it, and its kind. */
export interface Packed {
  readonly kind: string;
  readonly block: FoldedBlock;
}

/** How far the factor is moved to see what it does to the margin. */
const PROBE = 0.1;

function thicker({ block }: Packed, factor: number): FoldedBlock {
  return {
    ...block,
    thickness: block.thickness * factor,
    pressedThickness: block.pressedThickness * factor,
    thicknessSd: block.thicknessSd * factor,
  };
}

/**
 * What it says of the pieces' thickness that this container closed with them, or did not; null where the margin does not
 * depend on their thickness.
 * @param factors what is believed of each kind's factor now, around which the margin is taken for a straight line; 1 when
 *   not given
 */
export function closingEvidence(
  pieces: readonly Packed[],
  container: Container,
  wrap: Wrap,
  closed: boolean,
  factors: ReadonlyMap<string, number> = new Map(),
): ClosingEvidence | null {
  const factorOf = (kind: string) => factors.get(kind) ?? 1;
  const score = (probed: string | null) =>
    closingScore(
      pieces.map((piece) => thicker(piece, factorOf(piece.kind) + (piece.kind === probed ? PROBE : 0))),
      container,
      wrap,
    );
  const here = score(null);
  const slopes = new Map<string, number>();
  let intercept = here;
  for (const kind of new Set(pieces.map((piece) => piece.kind))) {
    const slope = (here - score(kind)) / PROBE;
    // Where nothing is spread margins have no end, and their differences are no slopes.
    if (!(slope > 0) || !Number.isFinite(slope)) continue;
    slopes.set(kind, slope);
    intercept += slope * factorOf(kind);
  }
  return slopes.size === 0 ? null : { closed, intercept, slopes };
}
