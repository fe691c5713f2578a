import { describe, expect, it } from 'vitest';
import { arriveByCell } from '#server/office/imports/arrive-by.ts';
import { shipByCell } from '#server/office/imports/ship-by.ts';
import { instantOf, wallTimeAt } from '#server/office/local-time.ts';

const now = Date.parse('2026-11-25T15:10:40Z'); // 09:10 in Chicago
const rules = { timeZone: 'America/Chicago', days: ['MM/DD/YYYY', 'DD.MM.YYYY'], time: '16:30', now };

describe('a ship-by cell', () => {
  it.each([
    ['+4h', '2026-11-25T19:10:00.000Z', true],
    ['+90m', '2026-11-25T16:40:00.000Z', true],
    ['+1d', '2026-11-26T15:10:00.000Z', true],
    ['+1d 16:30', '2026-11-26T22:30:00.000Z', true],
    ['+ 2 d 08:05', '2026-11-27T14:05:00.000Z', true],
    ['2026-12-01', '2026-12-01T22:30:00.000Z', false],
    ['2026-12-01 09:15', '2026-12-01T15:15:00.000Z', false],
    ['2026-12-01T09:15:30', '2026-12-01T15:15:00.000Z', false],
    ['2026-12-01T09:15:00Z', '2026-12-01T09:15:00.000Z', false],
    ['2026-12-01T09:15+02:00', '2026-12-01T07:15:00.000Z', false],
    ['12/01/2026', '2026-12-01T22:30:00.000Z', false],
    ['12/1/2026 9:15 AM', '2026-12-01T15:15:00.000Z', false],
    ['12/1/2026 12:05 am', '2026-12-01T06:05:00.000Z', false],
    ['01.12.2026', '2026-12-01T22:30:00.000Z', false],
    ['1.12.26, 9:15', '2026-12-01T15:15:00.000Z', false],
  ])('%s', (text, instant, relative) => {
    expect(shipByCell(text, rules)).toEqual({ ok: true, value: { instant, relative } });
  });

  it.each([
    '',
    'tomorrow',
    '13/13/2026',
    '2026-02-30',
    '2026-12-01 25:00',
    '+1w',
    '+4h 16:30',
    '1/2',
    '12/01/2026 13:00 PM',
  ])('refuses %j and says what would do', (text) => {
    const cell = shipByCell(text, rules);
    expect(cell.ok).toBe(false);
    expect(cell.ok ? '' : cell.expected).toContain('MM/DD/YYYY');
  });

  it('keeps the wall time over a change of the clocks', () => {
    // IANA time zone database: Chicago left summer time on 2026-11-01 at 02:00.
    const before = { ...rules, now: Date.parse('2026-10-31T15:00:00Z') };
    expect(shipByCell('+2d 16:30', before)).toEqual({
      ok: true,
      value: { instant: '2026-11-02T22:30:00.000Z', relative: true },
    });
  });
});

describe('wall time', () => {
  const at = (hour: number, minute: number, month: number, day: number) => ({ year: 2026, month, day, hour, minute });

  it('is the first of the two where the clocks go back, and after the gap where they go forward', () => {
    expect(instantOf(at(1, 30, 11, 1), 'America/Chicago')).toBe(Date.parse('2026-11-01T06:30:00Z'));
    expect(instantOf(at(2, 30, 3, 8), 'America/Chicago')).toBe(Date.parse('2026-03-08T08:30:00Z'));
    expect(instantOf(at(2, 30, 3, 29), 'Europe/Madrid')).toBe(Date.parse('2026-03-29T01:30:00Z'));
  });

  it('comes back from its instant in zones with odd offsets', () => {
    for (const zone of ['Asia/Kathmandu', 'Australia/Lord_Howe', 'Pacific/Chatham', 'America/St_Johns', 'UTC']) {
      for (let month = 1; month <= 12; month += 1) {
        const wall = at(12, 34, month, 15);
        expect(wallTimeAt(instantOf(wall, zone), zone)).toEqual(wall);
      }
    }
  });
});

describe('an arrive-by cell', () => {
  const late = { ...rules, now: Date.parse('2026-11-26T05:30:00Z') }; // 23:30 on the 25th in Chicago

  it.each([
    ['+3d', '2026-11-28', true],
    ['+ 0 d', '2026-11-25', true],
    ['2026-12-01', '2026-12-01', false],
    ['12/01/2026', '2026-12-01', false],
    ['1.12.26', '2026-12-01', false],
  ])('%s', (text, day, relative) => {
    for (const at of [rules, late]) expect(arriveByCell(text, at)).toEqual({ ok: true, value: { day, relative } });
  });

  it.each(['', 'soon', '+4h', '+3d 12:00', '2026-12-01 12:00', '2026-12-01T12:00Z', '2026-02-30', '+3'])(
    'refuses %j and says what would do',
    (text) => {
      const cell = arriveByCell(text, rules);
      expect(cell.ok ? '' : cell.expected).toBe(
        'a day without a time, such as 2026-11-28, MM/DD/YYYY, DD.MM.YYYY or +3d',
      );
    },
  );
});
