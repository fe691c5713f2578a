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
import { ENTER, strokes, typedOn } from '../../support/keyboards.ts';

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
    scans: all.flatMap((step) => (step.scan === null ? [] : [step.scan.text])),
    otherwise: all.flatMap((step) => step.scan?.otherwise ?? []),
    typed: all.flatMap((step) => step.typed.map((key) => key.key)).join(''),
    halfRead: all.filter((step) => step.halfRead).length,
    swallowed: steps.map((step) => step.swallow),
    idle: end.state.held.length === 0,
  };
}

describe('keyboard wedge', () => {
  test('a burst with Enter is a scan and the page sees none of its keys', () => {
    const result = press(keysOf('BFO 1047\r', 0, 1));
    expect(result).toMatchObject({ scans: ['BFO 1047'], typed: '', idle: true });
    expect(result.swallowed.every(Boolean)).toBe(true);
  });
  test('the keys of a burst follow within 35 ms', () => {
    expect(press(keysOf('BFO-1047\r', 0, 35))).toMatchObject({ scans: ['BFO-1047'], typed: '', halfRead: 0 });
    expect(press(keysOf('BFO-1047\r', 0, 36))).toMatchObject({ scans: [], typed: 'BFO-1047', halfRead: 0 });
  });
  test('a pause in which nothing came changes nothing', () => {
    const nothing = { state: WEDGE_IDLE, swallow: false, scan: null, typed: [], halfRead: false };
    expect(wedgePause(WEDGE_OPTIONS, WEDGE_IDLE, 100)).toEqual(nothing);
  });
  test('a code has at most 256 signs', () => {
    expect(press(keysOf(`${'A'.repeat(256)}\r`, 0, 1)).scans).toEqual(['A'.repeat(256)]);
    expect(press(keysOf(`${'A'.repeat(257)}\r`, 0, 1))).toMatchObject({ scans: [], halfRead: 1 });
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
    expect(press(keysOf('BFO-10', 0, 1))).toMatchObject({ scans: [], typed: '', halfRead: 1, idle: true });
  });
  test.each([4, 5, 6, 7])(
    'a burst that breaks off after %i keys is dropped with its rest, which alone is another code',
    (at) => {
      const [head, rest] = ['BFO-4101'.slice(0, at), 'BFO-4101'.slice(at)];
      const result = press([...keysOf(head, 0, 1), ...keysOf(`${rest}\r`, 100, 1)]);
      expect(result.scans).toEqual([]);
      expect(result.halfRead).toBeGreaterThan(0);
      expect(press([...keysOf(head, 0, 1), ...keysOf('WK-0031\r', 600, 1)]).scans).toEqual(['WK-0031']);
    },
  );
  test('the rest may come until 300 ms after the last key, and however often the timer has looked', () => {
    const after = (gap: number) => {
      let state: WedgeState = WEDGE_IDLE;
      for (const key of keysOf('BFO-4', 0, 1)) state = wedgeKey(WEDGE_OPTIONS, state, key).state;
      for (const time of [40, 80, 120]) state = wedgePause(WEDGE_OPTIONS, state, time).state;
      const scans: (string | undefined)[] = [];
      for (const key of keysOf('WK-0031\r', 4 + gap, 0)) {
        const step = wedgeKey(WEDGE_OPTIONS, state, key);
        state = step.state;
        scans.push(step.scan?.text);
      }
      return scans.filter((text) => text !== undefined);
    };
    expect(after(300)).toEqual([]);
    expect(after(301)).toEqual(['WK-0031']);
  });
  test.each([2, 3])('so is one that breaks off after %i keys', (at) => {
    const [head, rest] = ['OT-4101'.slice(0, at), 'OT-4101'.slice(at)];
    expect(press([...keysOf(head, 0, 1), ...keysOf(`${rest}\r`, 100, 1)]).scans).toEqual([]);
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
  test.each(['spanish', 'french', 'german'] as const)(
    'on a %s layout the same keys are read by their place too',
    (layout) => {
      const codes = ['BFC-SET-ASIDE', 'OT-0401', 'ZY-QA 90;m_'];
      for (const code of codes) {
        const keys = [...strokes(code), ENTER].map((stroke, at) => ({ ...typedOn(layout, stroke), time: at }));
        const { scans, otherwise } = press(keys);
        expect([...scans, ...otherwise]).toContain(code);
      }
    },
  );
  test('where both readings are the same there is only one', () => {
    expect(press(keysOf('BFO-1047\r', 0, 1))).toMatchObject({ scans: ['BFO-1047'], otherwise: [] });
  });
  test('a dead key is a character by its place only', () => {
    const dead: WedgeKey = { key: 'Dead', code: 'BracketLeft', shift: false, time: 3 };
    expect(press([...keysOf('AB1', 0, 1), dead, ...keysOf('9\r', 4, 1)])).toMatchObject({
      scans: ['AB1[9'],
      otherwise: [],
    });
  });
  test('Control with the closing bracket is the separator of element strings', () => {
    const separator: WedgeKey = { key: '\x1d', code: '', shift: false, time: 5 };
    expect(press([...keysOf('42055', 0, 1), separator, ...keysOf('91X\r', 6, 1)]).scans).toEqual(['42055\x1d91X']);
  });
  test('the separator has its place beside a dead key', () => {
    const dead: WedgeKey = { key: 'Dead', code: 'BracketLeft', shift: false, time: 2 };
    const separator: WedgeKey = { key: '\x1d', code: '', shift: false, time: 3 };
    const keys = [...keysOf('AB', 0, 1), dead, separator, ...keysOf('9\r', 4, 1)];
    expect(press(keys)).toMatchObject({ scans: ['AB[\x1d9'], otherwise: [] });
  });
  test('a dead key may come first, and a key without a place is read as typed', () => {
    const dead: WedgeKey = { key: 'Dead', code: 'BracketLeft', shift: false, time: 0 };
    expect(press([dead, ...keysOf('AB19\r', 1, 1)]).scans).toEqual(['[AB19']);
    const placeless = keysOf('BFO-1047\r', 0, 1).map((key) => (key.key === 'Enter' ? key : { ...key, code: '' }));
    expect(press(placeless)).toMatchObject({ scans: ['BFO-1047'], otherwise: [], typed: '' });
  });
  test('a key that is no character and begins nothing is the page’s', () => {
    const key: WedgeKey = { key: 'F5', code: 'F5', shift: false, time: 0 };
    expect(press([key])).toMatchObject({ swallowed: [false], typed: '', scans: [] });
  });
  test('the number block counts by place where it moves the cursor, and digits with shift are their signs', () => {
    const at = (key: string, code: string, shift: boolean, time: number): WedgeKey => ({ key, code, shift, time });
    const block = [at('Home', 'Numpad7', false, 3), at('End', 'Numpad1', false, 4)];
    expect(press([...keysOf('AB1', 0, 1), ...block, ...keysOf('\r', 5, 1)]).scans).toEqual(['AB171']);
    const signs = Array.from('!@#$%^&*()').map((key, index) => at(key, `Digit${(index + 1) % 10}`, true, index));
    expect(press([...signs, ...keysOf('\r', 10, 1)])).toMatchObject({ scans: ['!@#$%^&*()'], otherwise: [] });
    const elsewhere = ['"', '·', '/', '='].map((key, index) => at(key, `Digit${[2, 3, 7, 0][index]}`, true, index));
    expect(press([...elsewhere, ...keysOf('\r', 4, 1)])).toMatchObject({ scans: ['"·/='], otherwise: ['@#&)'] });
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
    const odd: WedgeKey = { key: '', code: '', shift: false, time: 6 };
    const result = press([...keysOf('BFO-1', 0, 1), odd, ...keysOf('047-22\r', 7, 1)]);
    expect(result).toMatchObject({ scans: [], halfRead: 1, typed: '' });
  });
  test('an endless burst is bounded and dropped', () => {
    const result = press(keysOf(`${'A'.repeat(5000)}\r`, 0, 1));
    expect(result.scans).toEqual([]);
    expect(result.halfRead).toBe(1);
    expect(result.idle).toBe(true);
  });
});
