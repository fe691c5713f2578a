import { describe, expect, test } from 'vitest';
import { meaningKey, readOnce, unread, type Reading, type ReadersState } from '#shared/codes/two-readers.ts';

/** Which of the readings act, in the order in which they come. */
function acts(readings: readonly Reading[]): readonly boolean[] {
  let state: ReadersState = [];
  return readings.map((reading) => {
    const step = readOnce(state, reading);
    state = step.state;
    return step.act;
  });
}
const read = (reader: string, at: number, what = 'piece', id?: string): Reading => ({
  what,
  reader,
  at,
  ...(id === undefined ? {} : { id }),
});
const PAIRS = [
  ['scanner', 'camera a'],
  ['camera a', 'scanner'],
  ['scanner', 'scan b'],
  ['scan b', 'camera b'],
  ['camera a', 'camera b'],
] as const;

describe.each(PAIRS)('%s, then %s', (first, second) => {
  test('the same code in the same moment acts once', () => {
    expect(acts([read(first, 0), read(second, 0)])).toEqual([true, false]);
    expect(acts([read(first, 0), read(second, 900)])).toEqual([true, false]);
    // What a screen tells late may have been read first.
    expect(acts([read(first, 900), read(second, 0)])).toEqual([true, false]);
  });
  test('later, or another code, it is meant', () => {
    expect(acts([read(first, 0), read(second, 1600)])).toEqual([true, true]);
    expect(acts([read(first, 0), read(second, 10, 'other')])).toEqual([true, true]);
  });
  test('another code between them changes nothing', () => {
    expect(acts([read(first, 0), read(first, 200, 'other'), read(second, 300)])).toEqual([true, true, false]);
  });
  test('two pieces alike, each read by both, act twice', () => {
    expect(acts([read(first, 0), read(second, 300), read(first, 900), read(second, 1200)])).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });
  test('the reader that came second is believed when it reads another one', () => {
    expect(acts([read(first, 0), read(second, 200), read(second, 1000)])).toEqual([true, false, true]);
  });
  test('a delivery that comes again says what it said', () => {
    const once = [read(first, 0, 'piece', 'one'), read(second, 200, 'piece', 'two')];
    expect(acts([...once, ...once, read(second, 900, 'piece', 'three')])).toEqual([true, false, true, false, true]);
  });
});

test('a delivery that comes again is no second reading, which another reader’s next one could be', () => {
  const again = [read('a', 0, 'piece', 'one'), read('b', 200, 'piece', 'two'), read('a', 0, 'piece', 'one')];
  expect(acts([...again, read('b', 900, 'piece', 'three')])).toEqual([true, false, true, true]);
});

test('a moment lasts a second and a half, and the memory does not grow', () => {
  expect(acts([read('a', 0), read('b', 1500)])).toEqual([true, false]);
  expect(acts([read('a', 0), read('b', 1501)])).toEqual([true, true]);
  let state: ReadersState = [];
  for (let at = 0; at < 100; at += 1) state = readOnce(state, read('a', at, String(at), String(at))).state;
  expect(state.map(({ what }) => Number(what))).toEqual(Array.from({ length: 32 }, (_, index) => 68 + index));
});

test('three readers of one code act once', () => {
  expect(acts([read('scanner', 0), read('camera a', 300), read('scan b', 500)])).toEqual([true, false, false]);
});

test('a reading of which nothing came hides no other', () => {
  const { state } = readOnce([], read('scanner', 0));
  expect(readOnce(unread(state, read('scanner', 0)), read('camera a', 300)).act).toBe(true);
  expect(readOnce(unread(state, read('scanner', 5)), read('camera a', 300)).act).toBe(false);
});

test('and nothing else is forgotten with it', () => {
  const others = [read('scanner', 0, 'other'), read('camera a', 0), read('scanner', 5)];
  const state: ReadersState = [read('scanner', 0), ...others].map((each) => ({ ...each, seconds: [] }));
  expect(unread(state, read('scanner', 0)).map(({ what, reader, at }) => ({ what, reader, at }))).toEqual(others);
});

test('however a reader tells a code, it is the same code', () => {
  const piece = (text: string) => meaningKey({ means: 'piece', text, sku: 'OT-0311' });
  expect(piece(']C0OT-0311')).toBe(piece('OT-0311'));
  const unknown = (text: string) => meaningKey({ means: 'unknown', text, why: 'not-known' });
  expect(unknown('A')).not.toBe(unknown('B'));
});
