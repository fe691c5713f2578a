import { describe, expect, it } from 'vitest';
import { keyStep } from '#shared/guidance/key-step.ts';
import { fullerOf, guidanceStanding, GUIDANCE_LEVELS } from '#shared/guidance/level.ts';
import { foldStops, guidanceOf, type Guidance } from '#shared/guidance/stops.ts';
import type { Fold } from '#shared/folding/types.ts';
import type { PlannedPiece } from '#shared/planning/types.ts';

/** A fold whose steps leave these footprints, 100 mm wide and so many long. */
function folded(...lengths: readonly number[]): PlannedPiece {
  const steps = lengths.map((length) => ({ drawing: { endsAs: { width: 100, length } } }));
  return { piece: { kind: 'shirt' }, fold: { recipe: 'thirds', steps } as unknown as Fold } as PlannedPiece;
}
const guided = (level: Guidance[string]['level'], usual: string | null): Guidance => ({ shirt: { level, usual } });

describe('where the bench stops at a fold', () => {
  const fold = folded(700, 700, 350, 180, 180);
  it.each<[string, Guidance, readonly number[]]>([
    ['a kind that nobody named', {}, [0, 1, 2, 3, 4]],
    ['full', guided('full', 'thirds'), [0, 1, 2, 3, 4]],
    ['brief', guided('brief', 'thirds'), [3]],
    ['quiet, as it is usual', guided('quiet', 'thirds'), []],
    ['quiet, not as it is usual', guided('quiet', 'halves'), [3]],
    ['quiet, where nothing is usual yet', guided('quiet', null), [3]],
  ])('%s', (_, guidance, stops) => {
    expect(foldStops(fold, guidance)).toEqual(stops);
  });

  it('is nowhere where nothing is folded', () => {
    expect(foldStops(folded(), guided('brief', null))).toEqual([]);
    expect(foldStops(folded(), guided('full', null))).toEqual([]);
  });
});

it('a kind is guided as it was said, and fully where nothing was said of it, whatever it is called', () => {
  expect(guidanceOf(guided('quiet', 'thirds'), 'shirt')).toEqual({ level: 'quiet', usual: 'thirds' });
  for (const kind of ['jeans', 'constructor']) {
    expect(guidanceOf(guided('quiet', 'thirds'), kind)).toEqual({ level: 'full', usual: null });
  }
});

it.each([
  [[700, 350, 350], 1],
  [[700, 700], 1],
  [[300, 700, 800], 2],
  [[100], 0],
])('the key step of a fold that leaves %j is %d', (lengths, key) => {
  expect(keyStep(folded(...lengths).fold)).toBe(key);
});

it('of two levels the fuller is the one that tells more', () => {
  for (const [index, one] of GUIDANCE_LEVELS.entries()) {
    for (const [later, other] of GUIDANCE_LEVELS.entries()) {
      expect(fullerOf(one, other)).toBe(GUIDANCE_LEVELS[Math.min(index, later)]);
    }
  }
});

describe('a long rest', () => {
  const rule = { start: 'brief', cleanToBrief: 3, cleanToQuiet: 5, restDays: 60 } as const;
  const days = (count: number) => count * 86_400_000;

  it('is none of somebody who never packed the kind', () => {
    expect(guidanceStanding([], rule, days(9000))).toEqual({ level: 'brief', chosen: false, cleanLeft: 5 });
  });

  it('ends what was set by hand, except where it changes nothing', () => {
    const chosen = (level: 'full' | 'quiet') => [{ type: 'chosen', at: days(1), level } as const];
    expect(guidanceStanding(chosen('quiet'), rule, days(61))).toMatchObject({ level: 'brief', chosen: false });
    expect(guidanceStanding(chosen('full'), rule, days(61))).toMatchObject({ level: 'full', chosen: true });
    const packed = [{ type: 'packed', at: days(1), clean: false } as const];
    expect(guidanceStanding(packed, rule, days(61))).toMatchObject({ level: 'full', chosen: false });
  });
});
