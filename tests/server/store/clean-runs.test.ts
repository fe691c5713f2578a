import fc from 'fast-check';
import { expect, it } from 'vitest';
import { addPack, cleanRunsNow, packsOf } from '#server/store/packs.ts';
import { runsOf, streaks } from '#shared/people/progress.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

it('counts the runs in a row without a mistake as one who looks through all of them', async () => {
  const data = temporaryFolder('clean-runs');
  const store = await openTestStore(data.path);
  // One run is one to three kinds, each with or without a mistake; some are stored in the same millisecond.
  const runs = fc.array(fc.tuple(fc.array(fc.boolean(), { minLength: 1, maxLength: 3 }), fc.nat(1)), { maxLength: 12 });
  let nobody = 0;
  await fc.assert(
    fc.asyncProperty(runs, async (packed) => {
      const person = `person-${String(nobody++)}`;
      let at = 0;
      for (const [run, [kinds, later]] of packed.entries()) {
        at += later;
        for (const [kind, mistaken] of kinds.entries()) {
          await addPack(store, {
            ...{ run: `${person}/${String(run)}`, person, kind: `kind-${String(kind)}`, pieces: 1, recipe: null },
            ...{ mistakes: mistaken ? ['wrong-piece'] : [], seconds: null, level: 'full', at },
          });
        }
      }
      expect(await cleanRunsNow(store, person)).toBe(streaks(runsOf(await packsOf(store, person))).now);
    }),
    { numRuns: 25 },
  );
  await store.destroy();
  data.remove();
});
