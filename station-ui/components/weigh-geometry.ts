import type { WeighScale } from '#shared/wire/views.ts';
import type { Reading } from '#shared/weighing/types.ts';
import { decimalsIn } from '#shared/units/decimal-mark.ts';
import { massIn } from '#shared/units/mass.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';

/** A place on the weigh line: 0 at its left end, 1 at its right end. */
export type Along = number;

export interface Tick {
  readonly at: Along;
  readonly text: string;
}

export interface Post {
  readonly at: Along;
  readonly ceiling: Mass;
  readonly planned: boolean;
  /** what the bracket above costs; null above the dearest */
  readonly above: Money | null;
}

/** Everything that the weigh line draws, as places along it. */
export interface WeighLine {
  /** ends of the line, floats in the unit shown */
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly Tick[];
  /** ceilings that lie on the line */
  readonly posts: readonly Post[];
  /** the price of each bracket wide enough to carry it, in the middle of what is seen of it */
  readonly prices: readonly { readonly at: Along; readonly price: Money; readonly tight: boolean }[];
  /** reading and what is still to come; null without a usable reading */
  readonly diamond: Along | null;
  /** the margin of error around the diamond, cut at the ends of the line */
  readonly band: readonly [Along, Along] | null;
  readonly expected: readonly [Along, Along] | null;
}

/** A price needs this much of the line to be read. */
const ROOM_FOR_PRICE = 0.09;
/** On the short line of a tablet held upright a price needs as much. */
const ROOM_WHEN_SHORT = 0.16;
/** Zoomed in as far as it goes, the band takes about a third of the line. */
const BANDS_ON_LINE = 6;
/** How far beyond the ceiling the line runs when it is not zoomed. */
const BEYOND_CEILING = 1.6;
/** Beyond the last ceiling, which is the most that the service takes: more words stand there. */
const BEYOND_LAST = 1.8;

/** The smallest of 1, 2, 5 x 10^k that is not below the value. */
export function niceAbove(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const step = [1, 2, 5, 10].find((each) => each * power >= value * (1 - 1e-9)) ?? 10;
  return step * power;
}

function ticksBetween(from: number, to: number, unit: MassUnit, language: Language): readonly Tick[] {
  const step = niceAbove((to - from) / 8);
  const places = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  const ticks: Tick[] = [];
  for (let index = first; index <= last; index++) {
    const value = index * step;
    ticks.push({ at: (value - from) / (to - from), text: decimalsIn(value.toFixed(places), unit, language) });
  }
  return ticks;
}

/** What the packer thinks of as the weight: what the scale says and what is still to come; null where nothing lies on it. */
export function totalOf(scale: WeighScale, reading: Reading | null): Mass | null {
  if (reading === null || reading.condition === 'fault') return null;
  if (isEmpty(reading)) return null;
  return (reading.mass + scale.toCome) as Mass;
}

/** Below two divisions the pan is as good as empty. */
export function isEmpty(reading: Reading): boolean {
  return reading.mass < 2 * reading.division;
}

function ends(scale: WeighScale, total: Mass | null, unit: MassUnit): readonly [number, number] {
  const planned = scale.brackets[scale.planned];
  const above = scale.brackets[scale.planned + 1];
  const ceiling = planned === undefined ? null : massIn(planned.ceiling, unit);
  const expected = massIn(scale.expected.high, unit);
  // A flat fee may have its ceiling at many times the parcel: the line then shows the parcel, not the ceiling.
  const near = ceiling !== null && ceiling <= 3 * expected;
  const beyond = ceiling === null ? 0 : ceiling * (above === undefined ? BEYOND_LAST : BEYOND_CEILING);
  const wanted = near ? Math.min(beyond, above === undefined ? beyond : massIn(above.ceiling, unit)) : 2 * expected;
  const mass = total === null ? 0 : massIn(total, unit);
  const full = Math.max(wanted, mass * 1.1, 1e-3);
  if (ceiling === null || total === null) return [0, full];
  const gap = Math.abs(ceiling - mass);
  const margin = massIn(scale.uncertainty, unit);
  const span = niceAbove(Math.max(BANDS_ON_LINE * margin, 4 * gap, 1e-3));
  if (span >= full) return [0, full];
  const middle = (ceiling + mass) / 2;
  const from = Math.max(0, middle - span / 2);
  return [from, from + span];
}

/**
 * Where everything stands on the weigh line. Far from the planned ceiling it runs from nothing to the next bracket;
 * as the weight nears the ceiling it zooms in, so that the margin of error stays readable.
 */
export function weighLine(
  scale: WeighScale,
  reading: Reading | null,
  unit: MassUnit,
  language: Language = 'en',
): WeighLine {
  const total = totalOf(scale, reading);
  const [from, to] = ends(scale, total, unit);
  const along = (mass: number): Along => (mass - from) / (to - from);
  const onLine = (at: Along): boolean => at >= -1e-9 && at <= 1 + 1e-9;
  const cut = (at: Along): Along => Math.min(1, Math.max(0, at));
  const stretch = (low: number, high: number): readonly [Along, Along] | null =>
    high < from || low > to ? null : [cut(along(low)), cut(along(high))];

  const posts = scale.brackets
    .map((bracket, index): Post => ({
      at: along(massIn(bracket.ceiling, unit)),
      ceiling: bracket.ceiling,
      planned: index === scale.planned,
      above: scale.brackets[index + 1]?.price ?? null,
    }))
    .filter((post) => onLine(post.at));

  const prices = scale.brackets.flatMap((bracket, index) => {
    const below = scale.brackets[index - 1];
    const left = cut(along(below === undefined ? 0 : massIn(below.ceiling, unit)));
    const right = cut(along(massIn(bracket.ceiling, unit)));
    const room = right - left;
    if (room < ROOM_FOR_PRICE) return [];
    return [{ at: (left + right) / 2, price: bracket.price, tight: room < ROOM_WHEN_SHORT }];
  });

  const margin = massIn(scale.uncertainty, unit);
  const mass = total === null ? null : massIn(total, unit);
  return {
    from,
    to,
    ticks: ticksBetween(from, to, unit, language),
    posts,
    prices,
    diamond:
      mass === null ? (reading === null || reading.condition === 'fault' ? null : cut(along(0))) : cut(along(mass)),
    band: mass === null ? null : stretch(mass - margin, mass + margin),
    expected: stretch(massIn(scale.expected.low, unit), massIn(scale.expected.high, unit)),
  };
}
