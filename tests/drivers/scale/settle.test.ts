import { describe, expect, test } from 'vitest';
import { settle, settleRulesFor, UNSETTLED, type SettleEvent } from '#drivers/scale/settle.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';

const division = massFromDecimal('0.1', 'oz');
const rules = settleRulesFor(division);

function reading(ounces: string, at: number, rest: Partial<Reading> = {}): Reading {
  return {
    mass: massFromDecimal(ounces, 'oz'),
    unit: 'oz',
    places: 1,
    division,
    stability: 'still',
    net: false,
    condition: 'ok',
    at,
    ...rest,
  };
}

/** Every 100 ms one reading; returns what was told, as text. */
function told(readings: readonly (readonly [string, Partial<Reading>?])[]): readonly string[] {
  let state = UNSETTLED;
  const out: string[] = [];
  readings.forEach(([ounces, rest], index) => {
    const step: { readonly state: typeof state; readonly event: SettleEvent } = settle(
      rules,
      state,
      reading(ounces, index * 100, rest),
    );
    state = step.state;
    if (step.event === 'pan-empty') out.push('empty');
    else if (step.event !== null) out.push(String(step.event.settled.mass / division));
  });
  return out;
}
const still = (ounces: string, times = 2) => Array.from({ length: times }, () => [ounces] as const);
const moving = (ounces: string) => [ounces, { stability: 'moving' }] as const;
const unflagged = (ounces: string, times: number) =>
  Array.from({ length: times }, () => [ounces, { stability: 'unknown' }] as const);

describe('settle', () => {
  test('a load after an empty pan is taken once', () => {
    expect(told([...still('0'), moving('9.0'), moving('16.4'), ...still('15.9', 9)])).toEqual(['empty', '159']);
  });
  test('a load that was there before we looked is not taken', () => {
    expect(told(still('15.9', 9))).toEqual([]);
  });
  test('the next load needs an empty pan between', () => {
    expect(told([...still('0'), ...still('15.9', 3), moving('9'), ...still('8.0', 5)])).toEqual(['empty', '159']);
    expect(told([...still('0'), ...still('15.9', 3), ...still('0'), ...still('8.0', 5)])).toEqual([
      'empty',
      '159',
      'empty',
      '80',
    ]);
  });
  test('moving readings are never taken', () => {
    expect(told([...still('0'), moving('15.9'), moving('15.9'), moving('15.9')])).toEqual(['empty']);
  });
  test('one still frame that nothing agrees with is not taken', () => {
    expect(told([...still('0'), ['99.9'], ...still('15.9')])).toEqual(['empty', '159']);
  });
  test('without a flag, agreeing readings over a time stand in for it', () => {
    expect(told([...unflagged('0.0', 7), ...unflagged('15.9', 6)])).toEqual(['empty']);
    expect(told([...unflagged('0.0', 7), ...unflagged('15.9', 7)])).toEqual(['empty', '159']);
  });
  test('without a flag, a mass that creeps by more than a division is not still', () => {
    const creeping = Array.from(
      { length: 20 },
      (_, index) => [(10 + index * 0.1).toFixed(1), { stability: 'unknown' }] as const,
    );
    expect(told([...unflagged('0.0', 7), ...creeping])).toEqual(['empty']);
  });
  test('an overload in between starts the window again, and is not a load', () => {
    expect(told([...still('0'), ['0', { condition: 'over' }], ['0', { condition: 'over' }], ['15.9']])).toEqual([
      'empty',
    ]);
  });
  test('below zero is neither empty nor a load', () => {
    expect(told([...still('-3.0', 4)])).toEqual([]);
    expect(told([...still('0'), ...still('-3.0', 4)])).toEqual(['empty']);
  });
  test('readings before and after a switch of units are not compared', () => {
    expect(told([...still('0'), ['15.9'], ['15.9', { unit: 'lb' }]])).toEqual(['empty']);
  });
});
