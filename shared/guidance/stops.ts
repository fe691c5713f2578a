import type { GuidanceLevel } from './level.ts';
import { keyStep } from './key-step.ts';
import type { PlannedPiece } from '#shared/planning/types.ts';

/** What the person at the bench is told about a kind, and how that person usually folds it. */
export interface KindGuidance {
  readonly level: GuidanceLevel;
  /** id of the recipe that is usual; null where there is none yet */
  readonly usual: string | null;
}

/** By kind; a kind that is not named is guided fully. */
export type Guidance = Readonly<Record<string, KindGuidance>>;

const FULL: KindGuidance = { level: 'full', usual: null };

export function guidanceOf(guidance: Guidance, kind: string): KindGuidance {
  return Object.hasOwn(guidance, kind) ? (guidance[kind] ?? FULL) : FULL;
}

/** True where the fold is not the one that this person usually makes of the kind. */
function differsFromUsual(planned: PlannedPiece, { usual }: KindGuidance): boolean {
  return usual !== planned.fold.recipe;
}

/**
 * At which steps of a piece's fold the bench stops: at every one, at the key step, or, quietly, at the key step only where
 * the fold differs from the usual one.
 */
export function foldStops(planned: PlannedPiece, guidance: Guidance): readonly number[] {
  const { steps } = planned.fold;
  if (steps.length === 0) return [];
  const of = guidanceOf(guidance, planned.piece.kind);
  switch (of.level) {
    case 'full':
      return steps.map((_, index) => index);
    case 'brief':
      return [keyStep(planned.fold)];
    case 'quiet':
      return differsFromUsual(planned, of) ? [keyStep(planned.fold)] : [];
  }
}
