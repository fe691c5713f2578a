import { describe, expect, it } from 'vitest';
import { COMMANDS } from '#shared/run/commands.ts';
import { NOTICE_CODES, SET_ASIDE_REASONS } from '#shared/run/types.ts';
import { WIRE_ERRORS } from '#shared/wire/events.ts';
import { DEVICE_STATES } from '#shared/wire/views.ts';
import { confirmHow } from '#station-ui/i18n/confirm-how.ts';
import { en } from '#station-ui/i18n/en.ts';
import { es } from '#station-ui/i18n/es.ts';
import { knownCautions } from '#station-ui/i18n/language.ts';
import { practiceWords } from '#station-ui/i18n/practice.ts';
import { sideWorkWords } from '#station-ui/i18n/side-work.ts';
import { detailWords } from '#station-ui/i18n/change-details.ts';
import { dayAndTime, exactTime, rememberShopZone } from '#station-ui/i18n/time.ts';

/** Every string of a language by its path; functions are called with marks that must come out again. */
function strings(node: unknown, path = ''): [string, string][] {
  if (typeof node === 'string') return [[path, node]];
  if (typeof node === 'function' || node === null || typeof node !== 'object') return [];
  return Object.entries(node).flatMap(([key, value]) => strings(value, `${path}/${key}`));
}

describe.each([
  ['en', en],
  ['es', es],
] as const)('%s', (_, words) => {
  it('has no empty string, but for states that need no word', () => {
    const empty = strings(words)
      .filter(([, text]) => text.trim() === '')
      .map(([path]) => path);
    expect(empty).toEqual(['/troubles/none', '/scale/stability/unknown']);
  });

  it('has words for every command, notice, reason, device state and wire error', () => {
    for (const command of COMMANDS) expect(words.commands[command]).toMatch(/\S/);
    for (const reason of SET_ASIDE_REASONS) expect(words.reasons[reason]).toMatch(/\S/);
    for (const state of DEVICE_STATES) expect(words.deviceStates[state]).toMatch(/\S/);
    for (const error of WIRE_ERRORS) expect(words.wireErrors[error]).toMatch(/\S/);
    for (const code of NOTICE_CODES) {
      expect(words.notices[code]({})).toMatch(/\S/);
      expect(words.notices[code]({})).not.toContain('undefined');
    }
  });

  it('gives no two commands the same words: they are spoken and must be told apart', () => {
    const spoken = COMMANDS.map((command) => words.commands[command]);
    expect(new Set(spoken).size).toBe(spoken.length);
  });

  it('puts a notice’s values into its words', () => {
    const said = words.notices['label-wrong-postcode']({ found: '55811', due: '55802' });
    expect(said).toContain('55811');
    expect(said).toContain('55802');
    expect(words.notices['piece-found']({ title: 'wool scarf' })).toContain('wool scarf');
  });
});

it('the languages differ wherever people read sentences', () => {
  const [english, spanish] = [new Map(strings(en)), new Map(strings(es))];
  expect([...spanish.keys()].sort()).toEqual([...english.keys()].sort());
  const same = [...english].filter(([path, text]) => text.includes(' ') && spanish.get(path) === text);
  expect(same).toEqual([]);
});

/** What functions say counts too, whatever they are given. */
function sentences(node: unknown): readonly string[] {
  if (typeof node === 'string') return [node];
  if (typeof node === 'function') {
    try {
      return [String((node as (...values: unknown[]) => unknown)('1', '1', '1', '1'))];
    } catch {
      return [];
    }
  }
  return node === null || typeof node !== 'object' ? [] : Object.values(node).flatMap(sentences);
}

it('the Spanish bench speaks to one packer as a colleague, and calls a scan by one word', () => {
  const formal =
    /(^|[\s«])(abra|conecte|deje|devuelva|elija|escriba|lea|mire|ponga|póngal[ao]|pulse|quite|retire|revise|vac[ií]e)(?![\p{L}])/iu;
  const { office, devicesPage, ...bench } = es;
  expect(sentences([office, devicesPage]).filter((text) => /escane/i.test(text))).toEqual([]);
  for (const each of [bench, practiceWords.es, sideWorkWords.es, confirmHow.es]) {
    expect(sentences(each).filter((text) => formal.test(text) || /escane/i.test(text))).toEqual([]);
  }
  expect(es.scale.zeroIt('0.3 oz')).toContain('0.3 oz');
});

it('a caution without words shows nothing', () => {
  expect(knownCautions(['knife', 'of-the-future', 'empty-pockets', 'pockets-lithium'])).toEqual([
    'knife',
    'pockets-lithium',
  ]);
});

describe('times', () => {
  const now = new Date('2026-11-25T12:00:00-06:00');
  it.each([
    ['2026-11-25T16:30:00-06:00', '16:30'],
    ['2026-11-26T16:30:00-06:00', 'Thu 16:30'],
    ['2026-12-24T09:05:00-06:00', 'Dec 24 09:05'],
    // Late in the shop's evening it is already tomorrow in UTC.
    ['2026-11-25T23:30:00-06:00', '23:30'],
    ['not a time', 'not a time'],
  ])('%s -> %s', (instant, said) => {
    expect(dayAndTime(instant, 'en', { now, timeZone: 'America/Chicago' })).toBe(said);
  });

  it('without a zone of its own are the shop’s, whatever the tablet is set to', () => {
    rememberShopZone('Pacific/Kiritimati');
    expect(dayAndTime('2026-11-25T16:30:00-06:00', 'en', { now, timeZone: undefined })).toBe('12:30');
    expect(exactTime('2026-11-25T16:30:05-06:00', 'en')).toMatch(/^Nov 26, 2026, 12:30:05/);
    rememberShopZone(undefined);
  });
});

describe('the facts of a change', () => {
  it('have a name in each language, and what is unknown stays as it is', () => {
    const details = { while: 'stopped', keys: 'staff.tobias.role', to: 'owner', ofAnotherVersion: 'x' };
    expect(detailWords(details, 'en')).toBe(
      'while the station was: stopped; keys: staff.tobias.role; to: owner; ofAnotherVersion: x',
    );
    expect(detailWords(details, 'es')).toBe(
      'mientras la estación estaba: parada; claves: staff.tobias.role; a: propiedad; ofAnotherVersion: x',
    );
  });
});
