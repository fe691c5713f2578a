/** How much the bench tells: every fold step with its drawing; the key step and the size; only what differs from usual. */
export const GUIDANCE_LEVELS = ['full', 'brief', 'quiet'] as const;
export type GuidanceLevel = (typeof GUIDANCE_LEVELS)[number];

/** By how many clean packs the guidance fades, and when it comes back. */
export interface GuidanceRule {
  /** for a kind that a person has never packed here, and for a bench where nobody is signed on */
  readonly start: GuidanceLevel;
  /** clean packs in a row from full to brief */
  readonly cleanToBrief: number;
  /** further clean packs in a row from brief to quiet */
  readonly cleanToQuiet: number;
  /** after so many days without packing a kind the guidance comes back by one level; null: never */
  readonly restDays: number | null;
}

/** Common practice of training at work, no source: a few repetitions seen step by step, some more with a reminder. */
export const DEFAULT_GUIDANCE: GuidanceRule = { start: 'full', cleanToBrief: 3, cleanToQuiet: 5, restDays: 60 };

/** What moves the guidance of one person for one kind. Times in epoch ms. */
export type GuidanceEvent =
  | { readonly type: 'packed'; readonly at: number; readonly clean: boolean }
  | { readonly type: 'chosen'; readonly at: number; readonly level: GuidanceLevel };

/** Where a person stands with a kind. */
export interface GuidanceStanding {
  readonly level: GuidanceLevel;
  /** the level was set by hand and has not moved by itself since */
  readonly chosen: boolean;
  /** clean packs still needed for the next level; null at quiet */
  readonly cleanLeft: number | null;
}

const DAY_MS = 86_400_000;

/** One level towards full; full stays full. */
export function fuller(level: GuidanceLevel): GuidanceLevel {
  return level === 'quiet' ? 'brief' : 'full';
}

/** One level towards quiet; quiet stays quiet. */
export function quieter(level: GuidanceLevel): GuidanceLevel {
  return level === 'full' ? 'brief' : 'quiet';
}

/** The one of two levels that tells more. */
export function fullerOf(a: GuidanceLevel, b: GuidanceLevel): GuidanceLevel {
  return GUIDANCE_LEVELS.indexOf(a) <= GUIDANCE_LEVELS.indexOf(b) ? a : b;
}

function cleanNeeded(level: GuidanceLevel, rule: GuidanceRule): number | null {
  return level === 'full' ? rule.cleanToBrief : level === 'brief' ? rule.cleanToQuiet : null;
}

interface Walk {
  readonly level: GuidanceLevel;
  readonly chosen: boolean;
  readonly streak: number;
  readonly last: number | null;
}

/** Every whole rest period without packing brings the guidance back by one level. */
function rested(walk: Walk, at: number, { restDays }: GuidanceRule): Walk {
  if (restDays === null || walk.last === null) return walk;
  const periods = Math.floor((at - walk.last) / (restDays * DAY_MS));
  if (periods < 1) return walk;
  const level = periods === 1 ? fuller(walk.level) : 'full';
  return { ...walk, level, chosen: walk.chosen && level === walk.level, streak: 0 };
}

function after(before: Walk, event: GuidanceEvent, rule: GuidanceRule): Walk {
  const walk = rested(before, event.at, rule);
  const last = event.at;
  if (event.type === 'chosen') return { level: event.level, chosen: true, streak: 0, last };
  if (!event.clean) return { level: fuller(walk.level), chosen: false, streak: 0, last };
  const streak = walk.streak + 1;
  const needed = cleanNeeded(walk.level, rule);
  if (needed === null || streak < needed) return { ...walk, streak, last };
  return { level: quieter(walk.level), chosen: false, streak: 0, last };
}

/**
 * The guidance that one person gets for one kind: it fades by clean packs in a row, comes back by a level after a pack that
 * was not clean and after a long rest, and begins anew from whatever was set by hand.
 * @param events in the order of their times
 */
export function guidanceStanding(events: readonly GuidanceEvent[], rule: GuidanceRule, now: number): GuidanceStanding {
  const begin: Walk = { level: rule.start, chosen: false, streak: 0, last: null };
  const walk = rested(
    events.reduce((so, event) => after(so, event, rule), begin),
    now,
    rule,
  );
  const needed = cleanNeeded(walk.level, rule);
  return {
    level: walk.level,
    chosen: walk.chosen,
    cleanLeft: needed === null ? null : Math.max(1, needed - walk.streak),
  };
}
