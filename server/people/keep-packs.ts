import type { StoreOrTransaction } from '#server/store/open.ts';
import { addPack } from '#server/store/packs.ts';
import { courseOf } from '#server/store/runs.ts';
import { guidanceOf } from '#shared/guidance/stops.ts';
import { workedMs } from '#shared/people/worked.ts';
import { allPieces } from '#shared/run/here.ts';
import type { RunState } from '#shared/run/types.ts';

/** Keeps what a finished run says of the person who packed it: one record for each kind of garment in it. */
export async function keepPacks(store: StoreOrTransaction, state: RunState, now: number): Promise<void> {
  const { run, packer, mistakes } = state;
  if (run === null || packer === null) return;
  const pieces = allPieces(state);
  const kinds = [...new Set(pieces.map(({ piece }) => piece.kind))];
  const course = await courseOf(store, run);
  // The time of a mixed order, or of two people, tells nothing of one kind or one person.
  const single = kinds.length === 1 && course.packer === packer;
  const seconds = single && pieces.length > 0 ? workedMs(course.times) / 1000 / pieces.length : null;
  for (const kind of kinds) {
    const ofKind = pieces.filter(({ piece }) => piece.kind === kind);
    const fold = ofKind.findLast(({ fold }) => fold.steps.length > 0)?.fold;
    await addPack(store, {
      run,
      person: packer,
      kind,
      pieces: ofKind.length,
      recipe: fold?.recipe ?? null,
      mistakes: mistakes.filter(({ garments }) => garments.includes(kind)).map(({ mistake }) => mistake),
      seconds,
      level: guidanceOf(state.guidance, kind).level,
      at: now,
    });
  }
}
