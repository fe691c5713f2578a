import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema } from '#config/schema/rate-card.ts';
import { runCli, type CliResult } from '#server/cli/cli.ts';
import { CONFIG, copyOfConfig, edit, lineOf, removeConfigFolders } from '#tests/support/config-folder.ts';
import { runCliProcess } from '#tests/support/run-cli.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'benchfold-cli-rates-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
  removeConfigFolders();
});

function file(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return name;
}

function run(args: readonly string[], incoming = '', config = CONFIG): Promise<CliResult> {
  const now = Date.parse('2026-11-25T18:00:00Z');
  return runCli(args, {
    now,
    config,
    workingFolder: folder,
    stdin: () => Buffer.from(incoming),
    wire: '',
    templates: '',
  });
}

const HEAD = ['--carrier', 'merrow-post', '--service', 'light-parcel', '--from', '2027-01-17'];
const GOOD = 'Not over,Zone 1,Zone 2\n8 oz,"$1,004.10",$1004.20\n1 lb,$1005.00,$1005.50\n';

describe('import-rates', () => {
  it('prints a rate card that the config takes, from a file and from what comes in', async () => {
    const { exit, stdout, stderr } = await run(['import-rates', file('good.csv', GOOD), ...HEAD]);
    expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
    const card = rateCardSchema.parse(parse(stdout));
    expect(card.services[0]?.prices[0]).toMatchObject({
      zones: ['1', '2'],
      brackets: [{ prices: [100410, 100420] }, {}],
    });
    expect((await run(['import-rates', '-', ...HEAD], GOOD)).stdout.replace(/^#.*\n/, '')).toBe(
      stdout.replace(/^#.*\n/, ''),
    );
  });

  it('names each cell that makes no sense and gives no card', async () => {
    const bad = 'w;1;2\n8 oz;4,10;4.20\n1 lb;;call us\n1 lb;5.00;5.50\n';
    const found = await run(['import-rates', file('bad.csv', bad), ...HEAD, '--json']);
    expect(found.exit).toBe(1);
    expect(
      found.stderr
        .split('\n')
        .filter(Boolean)
        .map((line) => line.split('  ')[0]),
    ).toEqual(['bad.csv B2', 'bad.csv B3', 'bad.csv C3', 'bad.csv A4']);
    expect(JSON.parse(found.stdout)).toMatchObject({ card: null, problems: [{ cell: 'B2' }, {}, {}, {}] });
  });

  const card = async (args: readonly string[], text = GOOD) =>
    rateCardSchema.parse(parse((await run(['import-rates', file('good.csv', text), ...HEAD, ...args])).stdout));

  it('writes how a postcode gets its zone, as the office page does', async () => {
    const range = (text: string) => ({ first: text, last: text });
    expect((await card([])).zones).toEqual([]);
    expect((await card(['--zone', '1'])).zones).toEqual([{ by: 'flat', zone: '1' }]);
    expect((await card(['--band', '150 1', '--band', '2', '--distance-unit', 'km'])).zones).toEqual([
      { by: 'distance', country: 'US', unit: 'km', bands: [{ upTo: 150, zone: '1' }, { zone: '2' }] },
    ]);
    const chart = file('chart.csv', 'to,zone\n550-567,1\n600,2\n');
    expect((await card(['--chart', chart, '--origin', '558'])).zones).toEqual([
      {
        by: 'chart',
        country: 'US',
        rows: [
          { from: range('558'), to: { first: '550', last: '567' }, zone: '1' },
          { from: range('558'), to: range('600'), zone: '2' },
        ],
      },
    ]);
  });

  it('takes zones and the rest of the service from the card before', async () => {
    const before = rateCardSchema.parse(parse(readFileSync(join(CONFIG, 'rate-cards/merrow-post.yaml'), 'utf8')));
    const fresh = await card(['--zones-before', '--carry-over']);
    expect(fresh.zones).toEqual(before.zones);
    expect(fresh.services[0]).toMatchObject({ name: before.services[0]?.name, limits: before.services[0]?.limits });
    expect((await card(['--zones-before'])).services[0]?.limits).toEqual([]);
  });

  it.each([
    [['--zone', 'a', '--zones-before'], 2, 'expected at most one of --zone, --band, --chart and --zones-before'],
    [['--zone', ' '], 1, '--zone: this makes no sense'],
    [['--band', '500 1', '--band', '100 2'], 1, '--band: this makes no sense: "100 2"'],
    [['--band', '500 1', '--distance-unit', 'leagues'], 1, '--distance-unit: expected mi or km, found "leagues"'],
    [['--chart', 'nowhere.csv'], 1, 'nowhere.csv: '],
    [['--chart', 'lost.csv', '--origin', '558'], 1, 'lost.csv A2  expected'],
  ])('%j makes no card', async (options, exit, message) => {
    file('lost.csv', 'to,zone\n55,1\n600,2\n');
    const found = await run(['import-rates', file('good.csv', GOOD), ...HEAD, ...options, '--out', 'never.yaml']);
    expect(found.exit).toBe(exit);
    expect(found.stderr).toContain(message);
    expect(existsSync(join(folder, 'never.yaml'))).toBe(false);
  });

  it('says when no card sells the service before', async () => {
    const args = ['--carrier', 'merrow-post', '--service', 'brand-new', '--from', '2027-01-17', '--carry-over'];
    const found = await run(['import-rates', file('good.csv', GOOD), ...args]);
    expect(found).toMatchObject({ exit: 1 });
    expect(found.stderr).toMatch(/--carry-over: no card of .* sells "brand-new" on 2027-01-16/);
  });

  it('takes falling prices only when told to', async () => {
    const falling = file('falling.csv', 'w,1\n8 oz,4.00\n1 lb,3.00\n');
    expect(await run(['import-rates', falling, ...HEAD])).toMatchObject({
      exit: 1,
      stderr: expect.stringContaining('B3  warning: expected at least 4.00') as string,
    });
    expect((await run(['import-rates', falling, ...HEAD, '--accept-warnings'])).stdout).toContain(
      'fallingPrices: true',
    );
  });

  it('writes a new file and never over one', async () => {
    const good = file('good.csv', GOOD);
    expect((await run(['import-rates', good, ...HEAD, '--out', 'card.yaml'])).stdout).toBe(
      'card.yaml: 2 brackets x 2 zones\n',
    );
    const written = readFileSync(join(folder, 'card.yaml'), 'utf8');
    const again = await run(['import-rates', good, ...HEAD, '--out', 'card.yaml']);
    expect(again).toMatchObject({ exit: 1, stderr: '--out: card.yaml is there already; name a new file\n' });
    expect(readFileSync(join(folder, 'card.yaml'), 'utf8')).toBe(written);
    expect(existsSync(join(folder, 'card.yaml.new'))).toBe(false);
  });

  it.each([
    [['--carrier', 'Merrow Post', '--service', 'a', '--from', '2027-01-17'], 1, '--carrier: expected lower-case'],
    [['--carrier', 'a', '--service', 'a', '--from', '2027-02-30'], 1, '--from: expected a day'],
    [['--carrier', 'a', '--service', 'a'], 2, '--from: expected, not given'],
    [[...HEAD, '--decimal', ';'], 1, '--decimal: expected one of'],
    [[...HEAD, '--mass-unit', 'stone'], 1, '--mass-unit: expected one of'],
  ])('%j is refused', async (options, exit, message) => {
    const found = await run(['import-rates', file('good.csv', GOOD), ...options]);
    expect(found.exit).toBe(exit);
    expect(found.stderr).toContain(message);
  });

  it('runs as a process that reads what comes in', async () => {
    const found = await runCliProcess(['import-rates', '-', ...HEAD]);
    expect(found).toMatchObject({ exit: 1, stderr: '-: expected a table with a header line; the file is empty\n' });
  });
});

describe('compare-rates', () => {
  it('says what went up, by how much, per bracket and zone', async () => {
    const before = join(CONFIG, 'rate-cards/merrow-post.yaml');
    const text = readFileSync(before, 'utf8').replace('from: 2026-01-18', 'from: 2027-01-17');
    const after = file('after.yaml', text.replace('{ upTo: 8 oz, prices: [4.05,', '{ upTo: 8 oz, prices: [4.15,'));
    const found = await run(['compare-rates', before, after, '--json']);
    expect(found.stderr).toBe('');
    expect(JSON.parse(found.stdout)).toMatchObject({
      before: { day: '2027-01-16' },
      after: { day: '2027-01-17' },
      changes: [{ service: 'light-parcel', row: '8 oz', zone: '1', before: 405, after: 415 }],
    });
    expect((await run(['compare-rates', before, after])).stdout).toContain('+$0.10 (+2.5 %)');
  });

  it('refuses a card that is none with its line', async () => {
    const found = await run(['compare-rates', file('none.yaml', 'carrier: 3\n'), file('none.yaml', 'carrier: 3\n')]);
    expect(found.exit).toBe(1);
    expect(found.stderr).toContain('none.yaml:1  carrier: expected');
  });
});

describe('check and quote', () => {
  it('names a service on two cards with file, line and path, and never throws', async () => {
    const config = copyOfConfig();
    edit(config, 'rate-cards/overfield-ground.yaml', 'id: ground', 'id: light-parcel');
    const found = await run(['check', config]);
    expect(found.exit).toBe(1);
    const line = lineOf(config, 'rate-cards/overfield-ground.yaml', 'id: light-parcel');
    expect(found.stderr).toContain(
      `rate-cards/overfield-ground.yaml:${String(line)}  services[0]: expected a service on one card`,
    );
    expect((await run(['quote', '--size', '1x1x1in', '--weight', '1oz', '--zone', '1', '--config', config])).exit).toBe(
      1,
    );
  });

  it('says which days have no price, and lets the folder pass', async () => {
    const config = copyOfConfig();
    edit(
      config,
      'rate-cards/merrow-post.yaml',
      'rule: weight-bracket\n',
      'rule: weight-bracket\n        until: 2027-06-30\n',
    );
    const found = await run(['check', config]);
    expect(found).toMatchObject({ exit: 0, stderr: '' });
    expect(found.stdout).toMatch(/merrow-post\.yaml:\d+ {2}services\[0\]\.prices: expected a price on every day/);
    expect(found.stdout).toContain('from 2027-07-01');
  });

  it.each([
    ['--size', 'NaNx8x2in', '8oz', '--size: length: expected a number and a unit'],
    ['--size', '-1x8x2in', '8oz', '--size: expected sides above 0'],
    ['--size', '0x8x2in', '8oz', '--size: expected sides above 0'],
    ['--size', '9000x8x2in', '8oz', 'first side: expected more than nothing and at most 10 m'],
    ['--soft', '8in', '8oz', '--soft: expected 2 or 3 sides'],
    ['--roll', '50x-3cm', '8oz', '--roll: expected sides above 0'],
    ['--roll', '50x3x3cm', '8oz', '--roll: expected 2 sides'],
    ['--roll', '50x3000cm', '8oz', 'diameter: expected more than nothing and at most 10 m'],
    ['--size', '10x8x2in', 'NaNoz', '--weight: mass: expected a number and a unit'],
    ['--size', '10x8x2in', '-3oz', 'mass: expected more than nothing'],
    ['--size', '10x8x2in', '0oz', 'mass: expected more than nothing'],
    ['--size', '10x8x2in', '900kg', 'larger than this station counts'],
  ])('refuses %s %s of %s by name', async (option, size, weight, message) => {
    const found = await run(['quote', `${option}=${size}`, `--weight=${weight}`, '--zone', '4']);
    expect(found).toMatchObject({ exit: 1, stdout: '' });
    expect(found.stderr).toContain(message);
  });

  it('prices a roll, and says in both languages why one is refused', async () => {
    const metric = join(CONFIG, 'demo-metric');
    const roll = (size: string, language: string) =>
      run(['quote', '--roll', size, '--weight', '800g', '--zone', 'home', '--config', metric, '--language', language]);
    expect((await roll('80x12cm', 'en')).stdout).toContain(
      'Anything added to the diameter and this service refuses it',
    );
    expect((await roll('80x12.5cm', 'en')).stdout).toContain(
      'Length and twice the diameter 1 cm too large: 105 cm, at most 104 cm',
    );
    expect((await roll('80x12.5cm', 'es')).stdout).toContain(
      'Largo más dos diámetros, 1 cm de más: 105 cm, máximo 104 cm',
    );
  });

  it('says with each offer how far the next price is', async () => {
    const args = ['quote', '--size', '10x8x2in', '--weight', '7oz', '--zone', '4', '--on', '2026-11-25'];
    const { offers } = JSON.parse((await run([...args, '--json'])).stdout) as {
      offers: { service: string; nextEdges: unknown }[];
    };
    expect(offers.find(({ service }) => service === 'light-parcel')?.nextEdges).toEqual(
      expect.arrayContaining([
        expect.objectContaining({
          leads: 'cheaper',
          along: 'mass',
          by: { mass: { g: 85.0486, oz: 3 } },
          price: { minor: 385, currency: 'USD' },
        }),
        expect.objectContaining({
          leads: 'dearer',
          along: 'mass',
          by: { mass: { g: 28.3495, oz: 1 } },
          price: { minor: 515, currency: 'USD' },
        }),
      ]),
    );
    expect((await run(args)).stdout).toContain('3 oz lighter would cost $3.85');
  });
});
