import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { badInput, wrongUsage } from './cli-error.ts';
import type { Command, Outcome, Surroundings } from './command.ts';
import { optional, type Options } from './options.ts';
import { table } from './table.ts';
import { formatProblems } from '#config/config-error.ts';
import { rateCardSchema, toRateCard } from '#config/schema/rate-card.ts';
import { parseSource } from '#config/source-file.ts';
import { validate } from '#config/validate.ts';
import { isDay } from '#server/office/rates/draft.ts';
import { compareCards, type PriceChange } from '#shared/rating/compare-cards.ts';
import { inForce } from '#shared/rating/dates.ts';
import { daysLater } from '#shared/rating/day.ts';
import type { RateCard } from '#shared/rating/rate-card.ts';
import type { Day } from '#shared/rating/types.ts';
import { formatMoney, money } from '#shared/units/money.ts';

function cardOf(path: string, { workingFolder }: Surroundings): RateCard {
  let text: string;
  try {
    text = readFileSync(resolve(workingFolder, path), 'utf8');
  } catch (error) {
    badInput(`${path}: ${error instanceof Error ? error.message : String(error)}`);
  }
  const read = parseSource(path, text);
  if (!read.ok) badInput(formatProblems(read.problems));
  const valid = validate(read.source, rateCardSchema);
  return valid.ok ? toRateCard(valid.value) : badInput(formatProblems(valid.problems));
}

function dayOption(options: Options, name: string): Day | undefined {
  const day = optional(options, name);
  return day === undefined || isDay(day)
    ? day
    : badInput(`--${name}: expected a day such as 2026-11-25, found "${day}"`);
}

/** "+$0.10 (+2.5 %)" */
function change({ before, after }: PriceChange, currency: string): string {
  if (before === null) return 'new';
  if (after === null) return 'gone';
  const by = after - before;
  const amount = formatMoney(money(by, currency));
  const perCent = before === 0 ? '' : ` (${by > 0 ? '+' : '−'}${Math.abs((by / before) * 100).toFixed(1)} %)`;
  return `${by > 0 ? '+' : ''}${amount}${perCent}`;
}

function run(options: Options, surroundings: Surroundings): Outcome {
  const [first, second] = options.positionals;
  if (first === undefined || second === undefined) wrongUsage('expected two rate cards');
  const [before, after] = [cardOf(first, surroundings), cardOf(second, surroundings)];
  if (before.currency !== after.currency) {
    badInput(`${second}: expected ${before.currency} as on ${first}, found ${after.currency}`);
  }
  const afterDay = dayOption(options, 'after-on') ?? after.from;
  const dayBefore = daysLater(afterDay, -1);
  const beforeDay = dayOption(options, 'before-on') ?? (inForce(before, dayBefore) ? dayBefore : before.from);
  const found = compareCards(before, beforeDay, after, afterDay);
  const shown = (minor: number | null) => (minor === null ? '' : formatMoney(money(minor, after.currency)));
  const rows = found.changes.map((each) => [
    each.service,
    each.row,
    each.zone ?? 'every',
    shown(each.before),
    shown(each.after),
    change(each, after.currency),
  ]);
  const named = (what: string, ids: readonly string[]) => (ids.length === 0 ? [] : [`${what}: ${ids.join(', ')}`]);
  const lines = [
    `${first} on ${beforeDay} against ${second} on ${afterDay}`,
    ...named('new services', found.added),
    ...named('services no longer there', found.removed),
    ...named('priced in another way', found.otherRule),
    `${found.changes.length} prices differ, ${found.unchanged} do not`,
    ...(rows.length === 0 ? [] : [table(['service', 'up to', 'zone', 'before', 'after', 'change'], rows)]),
  ];
  return {
    document: {
      before: { file: first, day: beforeDay },
      after: { file: second, day: afterDay },
      currency: after.currency,
      ...found,
    },
    text: lines.join('\n'),
    complaints: [],
  };
}

/** What changes from one rate card to another. */
export const compareRatesCommand: Command = {
  usage: 'compare-rates BEFORE.yaml AFTER.yaml [--before-on YYYY-MM-DD] [--after-on YYYY-MM-DD]',
  options: ['before-on', 'after-on'],
  positionals: 2,
  run,
};
