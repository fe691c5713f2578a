import { massFromBase, type Mass } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';

export interface SettleRules {
  /** a still pan that shows no more than this, either way, is empty */
  readonly emptyBelow: Mass;
  /** readings that must agree when the scale gives no stability flag */
  readonly readings: number;
  /** and the time they must span, in milliseconds */
  readonly windowMs: number;
}

const SETTLE_RULES: Omit<SettleRules, 'emptyBelow'> = { readings: 5, windowMs: 600 };

export interface SettleState {
  readonly stage: 'unknown' | 'empty' | 'captured';
  /** the newest readings that agree with one another, oldest first */
  readonly agreeing: readonly Reading[];
}

export type SettleEvent = null | 'pan-empty' | { readonly settled: Reading };

export const UNSETTLED: SettleState = { stage: 'unknown', agreeing: [] };

/** With a stability flag, two agreeing still readings: one alone could be a damaged frame that kept its form. */
const FLAGGED_READINGS = 2;
const GAP_MS = 1500;

/**
 * Takes one reading after another and tells when a load has come to rest: once for each load, and only after the pan
 * was seen empty, so a parcel left on the pan is never taken for the next one.
 */
export function settle(
  rules: SettleRules,
  state: SettleState,
  reading: Reading,
): { readonly state: SettleState; readonly event: SettleEvent } {
  if (reading.condition !== 'ok' || reading.stability === 'moving') {
    return { state: { ...state, agreeing: [] }, event: null };
  }
  const agreeing = agreeWith(reading, state.agreeing, rules.readings);
  const next = { ...state, agreeing };
  if (!isStill(agreeing, rules)) return { state: next, event: null };
  if (Math.abs(reading.mass) <= rules.emptyBelow) {
    return { state: { ...next, stage: 'empty' }, event: state.stage === 'empty' ? null : 'pan-empty' };
  }
  // Below zero something was taken off after a zeroing: no load, and no empty pan either.
  if (state.stage !== 'empty' || reading.mass < 0) return { state: next, event: null };
  return { state: { ...next, stage: 'captured' }, event: { settled: reading } };
}

/** The run of readings that ends in this one, shares its unit and spans no more than one division. */
function agreeWith(reading: Reading, earlier: readonly Reading[], most: number): readonly Reading[] {
  const run: Reading[] = [reading];
  let low: number = reading.mass;
  let high: number = reading.mass;
  let newer = reading;
  for (const each of earlier.toReversed()) {
    low = Math.min(low, each.mass);
    high = Math.max(high, each.mass);
    const sameUnit = each.unit === reading.unit && each.net === reading.net;
    if (!sameUnit || high - low > reading.division || newer.at - each.at > GAP_MS) break;
    run.unshift(each);
    newer = each;
  }
  // The oldest is kept for the time it spans; of the rest only as many as are counted.
  const first = run[0];
  return run.length <= most + 1 || first === undefined ? run : [first, ...run.slice(-most)];
}

function isStill(agreeing: readonly Reading[], rules: SettleRules): boolean {
  if (
    agreeing.length >= FLAGGED_READINGS &&
    agreeing.slice(-FLAGGED_READINGS).every((each) => each.stability === 'still')
  ) {
    return true;
  }
  const spanned = (agreeing.at(-1)?.at ?? 0) - (agreeing[0]?.at ?? 0);
  return agreeing.length >= rules.readings && spanned >= rules.windowMs;
}

/** Rules for a scale: an empty pan may be off by a few divisions before it is zeroed. */
export function settleRulesFor(division: Mass): SettleRules {
  return { ...SETTLE_RULES, emptyBelow: massFromBase(division * 5) };
}
