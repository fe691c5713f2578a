import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { checkFolder, loadShop } from '#config/load.ts';
import { postureLimit } from '#shared/care/lifting.ts';
import { DEFAULT_PEOPLE, peopleRules } from '#shared/people/rules.ts';
import { CONFIG, copyOfConfig, edit, lineOf, removeConfigFolders } from '#tests/support/config-folder.ts';

afterAll(removeConfigFolders);

describe('people.yaml', () => {
  it('says how the demo shop guides, cares and trains', () => {
    const rules = peopleRules(loadShop(CONFIG));
    expect(rules.guidance).toEqual({ start: 'full', cleanToBrief: 3, cleanToQuiet: 5, restDays: 60 });
    expect(rules.pause).toEqual({ afterMinutes: 50, restMinutes: 5 });
    expect(rules.gate).toBe('warn');
    expect(rules.skills.map(({ id }) => id)).toEqual(['packing', 'checking', 'weighing', 'suits']);
    expect(rules.skills[3]).toMatchObject({
      kinds: ['suit', 'suit-jacket', 'coat'],
      practise: { guided: 1, choose: 2, spot: 0 },
    });
    // 14 in is 35.56 cm.
    expect(rules.lift.from.horizontal).toBeCloseTo(35.56, 6);
    expect(postureLimit(rules.lift)).toBeGreaterThan(5);
  });

  it('may be left out: the defaults then hold, with one skill that gates nothing', () => {
    const folder = copyOfConfig();
    rmSync(join(folder, 'people.yaml'));
    expect(checkFolder(folder)).toEqual([]);
    expect(peopleRules(loadShop(folder))).toEqual(DEFAULT_PEOPLE);
    expect(DEFAULT_PEOPLE.skills.every(({ kinds }) => kinds.length === 0)).toBe(true);
  });

  it.each([
    [
      'kinds: [suit, suit-jacket, coat]',
      'kinds: [suit, soot-jacket, coat]',
      'skills.list.suits.kinds[1]',
      'a kind of garments.yaml',
    ],
    ['gate: warn', 'gate: maybe', 'skills.gate', 'off, warn, block'],
    ['cleanToBrief: 3', 'cleanToBrief: 0', 'guidance.cleanToBrief', '1'],
    ['horizontal: 14 in', 'horizontal: 14 inn', 'care.lift.from.horizontal', 'in'],
    [
      'problems: [too-close, zero-drifted]',
      'problems: [too-close, zero-drift]',
      'skills.list.weighing.problems[1]',
      'zero-drifted',
    ],
    ['restDays: 60', 'restDay: 60', 'guidance.restDay', 'restDays'],
  ])('%s -> %s is named by file, line and what was expected', (before, after, path, expected) => {
    const folder = copyOfConfig();
    edit(folder, 'people.yaml', before, after);
    const [problem, ...others] = checkFolder(folder);
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ file: 'people.yaml', path });
    expect(problem?.line).toBe(lineOf(folder, 'people.yaml', after));
    expect(`${problem?.expected ?? ''} ${problem?.found ?? ''}`).toContain(expected);
  });
});
