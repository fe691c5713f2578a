import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DEFAULT_GUIDANCE,
  GUIDANCE_LEVELS,
  guidanceStanding,
  type GuidanceEvent,
  type GuidanceLevel,
  type GuidanceRule,
} from '#shared/guidance/level.ts';

const DAY = 86_400_000;
const rule: GuidanceRule = { start: 'full', cleanToBrief: 3, cleanToQuiet: 5, restDays: 60 };

/** "c": a clean pack, "m": one with a mistake, "F", "B", "Q": set by hand; an hour apart, or as many days as a number says. */
function events(row: string): { readonly list: readonly GuidanceEvent[]; readonly now: number } {
  let at = 0;
  const list: GuidanceEvent[] = [];
  for (const part of row.split(' ').filter((each) => each !== '')) {
    if (/^\d+$/.test(part)) {
      at += Number(part) * DAY;
      continue;
    }
    for (const letter of part) {
      at += 3_600_000;
      const level = GUIDANCE_LEVELS.find((each) => each.startsWith(letter.toLowerCase()));
      if (letter === 'c' || letter === 'm') list.push({ type: 'packed', at, clean: letter === 'c' });
      else if (level !== undefined) list.push({ type: 'chosen', at, level });
    }
  }
  return { list, now: at };
}

describe('the guidance of one person for one kind', () => {
  it.each<[row: string, level: GuidanceLevel, cleanLeft: number | null, chosen: boolean]>([
    ['', 'full', 3, false],
    ['cc', 'full', 1, false],
    ['ccc', 'brief', 5, false],
    ['ccm', 'full', 3, false],
    ['ccmcc', 'full', 1, false],
    ['cccccccc', 'quiet', null, false],
    ['ccccccc', 'brief', 1, false],
    ['cccccccc m', 'brief', 5, false],
    ['cccccccc mm', 'full', 3, false],
    ['cccccccc m ccccc', 'quiet', null, false],
    ['Q', 'quiet', null, true],
    ['Q c', 'quiet', null, true],
    ['Q m', 'brief', 5, false],
    ['cccccccc F', 'full', 3, true],
    ['cccccccc F ccc', 'brief', 5, false],
    ['cc B c', 'brief', 4, true],
    ['cccccccc 59', 'quiet', null, false],
    ['cccccccc 60', 'brief', 5, false],
    ['cccccccc 120', 'full', 3, false],
    ['cccccccc 60 c', 'brief', 4, false],
    ['cc 60 c', 'full', 2, false],
  ])('%s -> %s', (row, level, cleanLeft, chosen) => {
    const { list, now } = events(row);
    expect(guidanceStanding(list, rule, now)).toEqual({ level, cleanLeft, chosen });
  });

  it('never comes back by itself where the shop does not want it', () => {
    const { list, now } = events('cccccccc 4000');
    expect(guidanceStanding(list, { ...rule, restDays: null }, now).level).toBe('quiet');
  });
});

const anyEvents = fc
  .array(fc.tuple(fc.constantFrom('c', 'c', 'c', 'm', 'F', 'B', 'Q'), fc.integer({ min: 0, max: 20 })), {
    maxLength: 60,
  })
  .map((rows) => events(rows.map(([letter, days]) => `${letter} ${String(days)}`).join(' ')));

it('a pack moves it by one level at most, clean ones only towards quiet, others only towards full', () => {
  fc.assert(
    fc.property(anyEvents, fc.boolean(), ({ list, now }, clean) => {
      const before = GUIDANCE_LEVELS.indexOf(guidanceStanding(list, DEFAULT_GUIDANCE, now).level);
      const next: GuidanceEvent = { type: 'packed', at: now, clean };
      const after = GUIDANCE_LEVELS.indexOf(guidanceStanding([...list, next], DEFAULT_GUIDANCE, now).level);
      if (clean) expect(after === before || after === before + 1).toBe(true);
      else expect(after).toBe(Math.max(0, before - 1));
    }),
  );
});

it('enough clean packs in a row lead from anywhere to quiet, and what was set by hand holds until then', () => {
  fc.assert(
    fc.property(anyEvents, fc.constantFrom(...GUIDANCE_LEVELS), ({ list, now }, level) => {
      const chosen: GuidanceEvent = { type: 'chosen', at: now, level };
      expect(guidanceStanding([...list, chosen], DEFAULT_GUIDANCE, now)).toMatchObject({ level, chosen: true });
      const clean = Array.from({ length: 8 }, (): GuidanceEvent => ({ type: 'packed', at: now, clean: true }));
      expect(guidanceStanding([...list, chosen, ...clean], DEFAULT_GUIDANCE, now).level).toBe('quiet');
    }),
  );
});
