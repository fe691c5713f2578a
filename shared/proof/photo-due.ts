import type { PhotoDue, ProofSettings } from './types.ts';
import type { RunState } from '#shared/run/types.ts';

/**
 * The photo that the shop's rule wants at this moment; null where none is. The pieces are photographed once they lie in their
 * container and as long as it is open, the parcel once it is closed and labelled: at the end, or while the pieces of the next
 * parcel are folded.
 */
export function photoDue(state: RunState, settings: ProofSettings | undefined): PhotoDue | null {
  if (settings === undefined || state.run === null || state.practice || !isWanted(state, settings)) return null;
  const of = (parcel: number, what: PhotoDue['what']): PhotoDue => ({ run: state.run ?? '', parcel, what });
  switch (state.step.at) {
    case 'weigh':
    case 'decide':
    case 'seal':
      return of(state.parcel + 1, 'packed');
    case 'done':
      return of(state.parcels.length, 'closed');
    case 'fold':
    case 'fill':
      return state.parcel > 0 ? of(state.parcel, 'closed') : null;
    default:
      return null;
  }
}

/** A piece whose value nobody said counts as worth nothing. */
function isWanted({ parcels }: RunState, { photos }: ProofSettings): boolean {
  if (typeof photos === 'string') return photos === 'always';
  const worth = parcels.flatMap(({ pieces }) => pieces).reduce((sum, { piece }) => sum + (piece.value?.minor ?? 0), 0);
  return worth >= photos.from.minor;
}
