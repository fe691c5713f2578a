import { describe, expect, test } from 'vitest';
import {
  WEDGE_IDLE,
  WEDGE_OPTIONS,
  wedgeKey,
  wedgePause,
  type WedgeKey,
  type WedgeOptions,
  type WedgeState,
  type WedgeStep,
} from '#shared/codes/wedge.ts';

/** Keys as a US keyboard sends them. */
function keysOf(text: string, start: number, gap: number): WedgeKey[] {
  return Array.from(text).map((key, index) => ({
    key: key === '\r' ? 'Enter' : key,
    code:
      key === '\r'
        ? 'Enter'
        : key === ' '
          ? 'Space'
          : key === '-'
            ? 'Minus'
            : /\d/.test(key)
              ? `Digit${key}`
              : `Key${key.toUpperCase()}`,
    shift: /[A-Z]/.test(key),
    time: start + index * gap,
  }));
}

function press(keys: readonly WedgeKey[], options: WedgeOptions = WEDGE_OPTIONS) {
  let state: WedgeState = WEDGE_IDLE;
  const steps: WedgeStep[] = [];
  for (const key of keys) {
    const step = wedgeKey(options, state, key);
    steps.push(step);
    state = step.state;
  }
  const last = keys.at(-1)?.time ?? 0;
  const end = wedgePause(options, state, last + options.gapMs + 1);
  const all = [...steps, end];
  return {
    scans: all.flatMap((step) => (step.scan === null ? [] : [step.scan])),
    typed: all.flatMap((step) => step.typed.map((key) => key.key)).join(''),
    halfRead: all.flatMap((step) => (step.halfRead === null ? [] : [step.halfRead])),
    swallowed: steps.map((step) => step.swallow),
    idle: end.state === WEDGE_IDLE,
  };
}

describe('keyboard wedge', () => {
  test('a burst with Enter is a scan and the page sees none of its keys', () => {
    const result = press(keysOf('BFO 1047\r', 0, 1));
    expect(result).toMatchObject({ scans: ['BFO 1047'], typed: '', idle: true });
    expect(result.swallowed.every(Boolean)).toBe(true);
  });
  test('a person typing gets every key back, in order, and Enter is theirs', () => {
    const result = press(keysOf('hi 42\r', 0, 120));
    expect(result).toMatchObject({ scans: [], typed: 'hi 42', idle: true });
    expect(result.swallowed.at(-1)).toBe(false);
  });
  test('two quick keys by accident are typing', () => {
    expect(press(keysOf('ab', 0, 5))).toMatchObject({ scans: [], typed: 'ab', idle: true });
  });
  test('a burst without an end is a half-read code: dropped', () => {
    expect(press(keysOf('BFO-10', 0, 1))).toMatchObject({ scans: [], typed: '', halfRead: ['BFO-10'], idle: true });
  });
  test('two bursts are two scans', () => {
    expect(press([...keysOf('BFO-1047\r', 0, 1), ...keysOf('WK-0031\r', 500, 2)])).toMatchObject({
      scans: ['BFO-1047', 'WK-0031'],
    });
  });
  test('a key typed just before a burst is not part of it', () => {
    expect(press([...keysOf('x', 0, 1), ...keysOf('BFO-1047\r', 100, 1)])).toMatchObject({
      scans: ['BFO-1047'],
      typed: 'x',
    });
  });
  test('by place: a French layout makes other characters of the same keys', () => {
    const french = keysOf('A-12\r', 0, 1).map((key) => ({
      ...key,
      key:
        key.code === 'KeyA'
          ? 'Q'
          : key.code === 'Minus'
            ? ')'
            : key.code === 'Digit1'
              ? '&'
              : key.code === 'Digit2'
                ? 'é'
                : key.key,
    }));
    expect(press(french).scans).toEqual(['Q)&é']);
    expect(press(french, { ...WEDGE_OPTIONS, characters: 'by-place' }).scans).toEqual(['A-12']);
  });
  test('shift keys within a burst are swallowed and are no characters', () => {
    const shift: WedgeKey = { key: 'Shift', code: 'ShiftLeft', shift: true, time: 2 };
    expect(press([...keysOf('BF', 0, 1), shift, ...keysOf('O-1\r', 3, 1)]).scans).toEqual(['BFO-1']);
  });
  test('the foot switch passes at once', () => {
    const options = { ...WEDGE_OPTIONS, letThrough: new Set(['F9', 'Space']) };
    expect(press(keysOf(' ', 0, 1), options).swallowed).toEqual([false]);
    expect(press(keysOf('AB CD\r', 0, 1), options)).toMatchObject({ scans: ['AB CD'] });
  });
  test('a key that is no character spoils the burst it stands in, and the rest of it is not taken for a code', () => {
    const odd: WedgeKey = { key: 'Dead', code: 'Quote', shift: false, time: 6 };
    const result = press([...keysOf('BFO-1', 0, 1), odd, ...keysOf('047-22\r', 7, 1)]);
    expect(result).toMatchObject({ scans: [], halfRead: ['BFO-1047-22'], typed: '' });
  });
  test('an endless burst is bounded and dropped', () => {
    const result = press(keysOf(`${'A'.repeat(5000)}\r`, 0, 1));
    expect(result.scans).toEqual([]);
    expect(result.halfRead[0]).toHaveLength(256);
  });
});
