import { fitLearningCurve, type LearningCurve } from './learning-curve.ts';
import { MISTAKE_KINDS, type MistakeKind } from '#shared/run/types.ts';

/** What progress needs to know of a pack: one kind in one run. Oldest first in every list. */
export interface PackFacts {
  readonly kind: string;
  readonly mistakes: readonly MistakeKind[];
  /** worked seconds a piece; null where it tells nothing of the kind */
  readonly seconds: number | null;
  readonly at: number;
}

export interface Streaks {
  /** clean packs in a row up to now */
  readonly now: number;
  readonly longest: number;
}

export function streaks(packs: readonly Pick<PackFacts, 'mistakes'>[]): Streaks {
  let now = 0;
  let longest = 0;
  for (const { mistakes } of packs) {
    now = mistakes.length === 0 ? now + 1 : 0;
    longest = Math.max(longest, now);
  }
  return { now, longest };
}

/** How often each mistake was made. */
export function mistakeCounts(packs: readonly Pick<PackFacts, 'mistakes'>[]): Readonly<Record<MistakeKind, number>> {
  const all = packs.flatMap(({ mistakes }) => mistakes);
  const counts = MISTAKE_KINDS.map((kind) => [kind, all.filter((each) => each === kind).length] as const);
  return Object.fromEntries(counts) as Record<MistakeKind, number>;
}

export interface KindProgress {
  readonly kind: string;
  readonly packs: number;
  readonly clean: number;
  readonly streak: Streaks;
  readonly mistakes: Readonly<Record<MistakeKind, number>>;
  /** seconds a piece, pack by pack, of those that tell of the kind */
  readonly times: readonly number[];
  readonly curve: LearningCurve | null;
}

/** A person's progress with each kind, the most packed first. */
export function progressByKind(packs: readonly PackFacts[]): readonly KindProgress[] {
  const kinds = [...new Set(packs.map(({ kind }) => kind))];
  return kinds
    .map((kind): KindProgress => {
      const own = packs.filter((pack) => pack.kind === kind);
      const times = own.flatMap(({ seconds }) => (seconds === null || seconds <= 0 ? [] : [seconds]));
      return {
        kind,
        packs: own.length,
        clean: own.filter(({ mistakes }) => mistakes.length === 0).length,
        streak: streaks(own),
        mistakes: mistakeCounts(own),
        times,
        curve: fitLearningCurve(times),
      };
    })
    .sort((a, b) => b.packs - a.packs || a.kind.localeCompare(b.kind));
}

/** Mistakes and streaks over runs: a run with several kinds counts once. */
export function runsOf(packs: readonly (PackFacts & { readonly run: string })[]): readonly PackFacts[] {
  const runs = new Map<string, PackFacts>();
  for (const pack of packs) {
    const before = runs.get(pack.run);
    const mistakes = [...new Set([...(before?.mistakes ?? []), ...pack.mistakes])];
    runs.set(pack.run, { kind: '', mistakes, seconds: null, at: pack.at });
  }
  return [...runs.values()];
}
