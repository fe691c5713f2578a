import { describe, expect, it } from 'vitest';
import { reportOn } from '#config/load.ts';
import { configText, spanishOf } from '#station-ui/i18n/config-problems.ts';
import { brokenFiles } from '#tests/support/broken-files.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';

/** Texts of the check that have no Spanish. */
function untranslated(problems: readonly { readonly expected: string; readonly found: string }[]): readonly string[] {
  const texts = problems.flatMap(({ expected, found }) => [expected, found]);
  return [...new Set(texts)].filter((text) => spanishOf(text) === null);
}

describe('what the check says', () => {
  it('has Spanish for whatever is wrong in a file', () => {
    const problems = brokenFiles(199);
    expect(problems.length).toBeGreaterThan(100);
    expect(untranslated(problems)).toEqual([]);
  });

  it('has Spanish for what the rate cards get wrong together', () => {
    const config = copyOfConfig();
    const merrow = 'rate-cards/merrow-post.yaml';
    edit(
      config,
      merrow,
      '      - { limit: longest-side, most: 22 in }',
      '      - { limit: longest-side, most: 22 in, until: 2026-06-30 }\n      - { limit: longest-side, most: 21 in, from: 2026-08-01 }',
    );
    edit(config, merrow, 'rule: weight-bracket\n', 'rule: weight-bracket\n        until: 2027-06-30\n');
    edit(config, merrow, "      - { zone: '8' }", "      - { upTo: 9000, zone: '9' }");
    const ground = 'rate-cards/overfield-ground.yaml';
    edit(config, ground, 'id: ground', 'id: light-parcel');
    edit(config, ground, 'from: 2026-07-12', 'from: 2026-07-11');
    edit(config, ground, '      - id: far-area', '      - id: fuel');
    edit(config, ground, 'from: 2026-11-30', 'from: 2027-11-30');
    const { problems, warnings } = reportOn(config);
    removeConfigFolders();
    expect(problems.length).toBeGreaterThan(3);
    expect(warnings.length).toBeGreaterThan(2);
    expect(untranslated([...problems, ...warnings])).toEqual([]);
  });

  it('keeps values as the file has them, and words that it does not know', () => {
    expect(configText('one of oz, lb, g, kg (did you mean kg?)', 'es')).toBe('uno de oz, lb, g, kg (¿quiso decir kg?)');
    expect(
      configText('a surcharge "fuel" is not in force from 2026-07-01 until 2026-07-02 (service ground)', 'es'),
    ).toBe('el recargo "fuel" no está vigente desde el 2026-07-01 hasta el 2026-07-02 (servicio ground)');
    expect(configText('a price such as 4.10', 'en')).toBe('a price such as 4.10');
    expect(configText('Something new went wrong here', 'es')).toBe('Something new went wrong here');
  });
});
