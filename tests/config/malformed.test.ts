import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { formatProblems, type Problem } from '#config/config-error.ts';
import { checkFolder } from '#config/load.ts';
import { copyOfConfig, edit, lineOf, removeConfigFolders } from '#tests/support/config-folder.ts';

/** One mistake for each row, all made in the same folder: file, what is written over what, path, and what is said. */
const MISTAKES: readonly (readonly [string, string, string, string, string, string])[] = [
  ['shop.yaml', 'currency: USD', 'currency: usd', 'currency', 'three capital letters', '"usd"'],
  ['shop.yaml', 'massPlaces: 1', 'massPlaces: one', 'units.massPlaces', 'a number', '"one"'],
  ['shop.yaml', "postcode: '55802'", 'postcode: 55802', 'from.postcode', 'in quotes: "55802"', '55802'],
  ['shop.yaml', "perHour: '21.00'", "perHour: '21.005'", 'labour.perHour', 'an amount such as "4.10"', '"21.005"'],
  ['shop.yaml', "at: '16:30'", "at: '4:30 pm'", 'collections[0].at', 'a time of day', '"4:30 pm"'],
  ['shop.yaml', '    es: Gracias', '    se: Gracias', 'slip.thanks.se', 'only the keys en, es', 'did you mean es?'],
  [
    'staff.yaml',
    'name: Tobias',
    'nmae: Tobias',
    'staff.tobias.nmae',
    'only the keys name, badge',
    'did you mean name?',
  ],
  ['staff.yaml', 'STAFF-LUCIA-03', 'STAFF LUCIA 03', 'staff.lucia.badge', 'without spaces', '"STAFF LUCIA 03"'],
  [
    'devices.yaml',
    '      capacity: 70 lb',
    '      capacity: 70 lobs',
    'benches.bench-1.scale.capacity',
    'oz, lb, g or kg',
    '"lobs" in',
  ],
  [
    'devices.yaml',
    'accuracy: { kind: hb44',
    'accuracy: { kind: hb45',
    'benches.bench-1.scale.accuracy.kind',
    'one of hb44, r76, own',
    '"hb45"',
  ],
  ['devices.yaml', '      paper: 58', '      paper: 57', 'benches.bench-2.printer.paper', 'one of 58, 80', '57'],
  [
    'devices.yaml',
    'dotsPerLine: 576',
    'dotsPerLine: 577',
    'benches.bench-1.printer.dotsPerLine',
    'a multiple of 8',
    '577',
  ],
  [
    'supplies.yaml',
    'plusMinus: 0.03 oz',
    'plusMinus: -0.03 oz',
    'additions[2].plusMinus',
    'a mass of zero or more',
    '"-0.03 oz"',
  ],
  ['imports.yaml', 'decimalMark: point', 'decimalMark: dot', 'decimalMark', 'one of point, comma', '"dot"'],
  ['imports.yaml', 'days: [MM/DD/YYYY', 'days: [MM/DD/JJJJ', 'days[0]', 'day, month and year', '"MM/DD/JJJJ"'],
  ['imports.yaml', '  note: [notes', '  notes: [notes', 'orders.notes', 'only the keys', 'did you mean note?'],
  [
    'cloths.yaml',
    'bendingLength:',
    'bendingLenght:',
    'cloths.poplin.bendingLenght',
    'only the keys',
    'did you mean bendingLength?',
  ],
  ['garments.yaml', 'outline: legs', 'outline: leg', 'kinds.jeans.outline', 'did you mean legs?', '"leg"'],
  [
    'garments.yaml',
    "'S': { width: 45.7 cm",
    "'S': { width: 45.7",
    'kinds.t-shirt.sizes.S.width',
    'a number and its unit such as 12.25 in',
    '45.7',
  ],
  ['recipes.yaml', 'do: face-down', 'do: face-dwn', 'do', 'face-down', '"face-dwn"'],
  [
    'containers.yaml',
    'type: carton',
    'type: box',
    'containers.carton-8x6x4.type',
    'one of pouch, card, carton',
    '"box"',
  ],
  ['containers.yaml', "cost: '0.09'", 'cost: 0.09', 'containers.pouch-10x13.cost', 'in quotes: "0.09"', '0.09'],
  [
    'containers.yaml',
    'massSd: 0.6 g',
    'massSd: plenty',
    'containers.pouch-12x15.massSd',
    'a number and a unit',
    '"plenty"',
  ],
  [
    'rate-cards/overfield-ground.yaml',
    'from: 2026-01-01',
    'from: 1 January',
    'from',
    'a day such as 2026-11-25',
    '"1 January"',
  ],
  [
    'rate-cards/merrow-post.yaml',
    'limit: smallest-size',
    'limit: smalest-size',
    'limit',
    'smallest-size',
    '"smalest-size"',
  ],
];

describe('a folder with a mistake in every file', () => {
  let folder = '';
  let problems: readonly Problem[] = [];

  beforeAll(() => {
    folder = copyOfConfig();
    for (const [file, before, after] of MISTAKES) edit(folder, file, before, after);
    problems = checkFolder(folder);
  });
  afterAll(removeConfigFolders);

  it.each(MISTAKES)('%s: %s -> %s', (file, _before, after, path, expected, found) => {
    const line = lineOf(folder, file, after);
    const here = problems.filter((problem) => problem.file === file && problem.line === line);
    const said = here.find((problem) => problem.path.endsWith(path));
    expect(said, formatProblems(problems.filter((problem) => problem.file === file))).toBeDefined();
    expect(said?.expected).toContain(expected);
    expect(said?.found).toContain(found);
  });
});
