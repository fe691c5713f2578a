import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { saveBelief } from '#server/store/learning.ts';
import { headerKey } from '#server/office/imports/header-key.ts';
import { saveSource } from '#server/store/import-sources.ts';
import type { SourceMapping } from '#shared/imports/source.ts';
import { openStore } from '#server/store/open.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { runCli, type CliResult } from '#server/cli/cli.ts';
import { runCliProcess } from '#tests/support/run-cli.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'benchfold-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

/** The same commands as the process runs, without starting one. */
function run(args: readonly string[], incoming = ''): Promise<CliResult> {
  const config = fileURLToPath(new URL('../../../config', import.meta.url));
  return runCli(args, {
    now: Date.parse('2026-11-25T18:00:00Z'),
    config,
    workingFolder: folder,
    wire: '',
    templates: config,
    stdin: () => Buffer.from(incoming),
  });
}

async function document(args: readonly string[]): Promise<never> {
  const { exit, stdout, stderr } = await run([...args, '--json']);
  expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
  return JSON.parse(stdout) as never;
}

const PIECES = `sku,title,kind,size,cloth,colour,mass,width,length,value,place
A-1,Grey tee,t-shirt,M,,,5.6 oz,,,12.00,K1
A-2,Blue jeans,jeans,,,,,,,30.00,K2
A-3,Black tee,t-shirt,L,,,,,,12.00,K1
`;
const ORDERS = `order,skus,buyer,street,street2,city,region,postcode,country,shipBy,service,paidPostage,note
7001,A-1,Test Buyer,1 Test Street,,Chicago,IL,60601,US,2026-11-27T16:00:00Z,,,
7002,A-2 A-3,Test Buyer,1 Test Street,,Chicago,IL,60601,US,2026-11-27T16:00:00Z,,,
`;

describe('verdict', () => {
  const ask = (reading: string, ...more: readonly string[]) =>
    [
      'verdict',
      '--reading',
      reading,
      '--division',
      '0.1oz',
      '--ceiling',
      '16oz',
      '--additions',
      '0.1oz',
      ...more,
    ] as const;

  it('prints one JSON document', async () => {
    const found = await document(ask('15.9oz'));
    expect(found).toMatchObject({
      verdict: 'close',
      margin: { g: 0, oz: 0 },
      worstCase: { oz: 0.15 },
      probabilityOver: 0.5,
      components: [{ name: 'resolution' }, { name: 'tolerance' }],
    });
  });

  it.each([
    ['15.5oz', 'clear'],
    ['16oz', 'over'],
  ])('calls %s %s', async (reading, verdict) => {
    expect(await document(ask(reading))).toMatchObject({ verdict });
  });

  it('takes an own figure for what the scale is wrong by', async () => {
    expect(await document(ask('15.9oz', '--accuracy', '0.5oz'))).toMatchObject({ worstCase: { oz: 0.55 } });
  });

  it('prints a table for people', async () => {
    const { exit, stdout } = await run(ask('15.9oz'));
    expect(exit).toBe(0);
    expect(stdout).toContain('close: the ceiling lies within the margin of error');
    expect(stdout).toContain('50.0 %');
  });
});

describe('quote', () => {
  interface QuoteDocument {
    readonly offers: readonly { service: string; price: { minor: number; currency: string }; reasons: string[] }[];
    readonly refused: readonly { service: string; why: string }[];
  }

  it('lists offers cheapest first with their reasons as sentences, and refusals with why', async () => {
    const args = ['quote', '--size', '10x8x2in', '--weight', '2lb', '--zone', '4', '--on', '2026-11-25'];
    const { offers, refused }: QuoteDocument = await document(args);
    const prices = offers.map((offer) => offer.price.minor);
    expect(prices).toEqual(prices.toSorted((a, b) => a - b));
    expect(offers.find(({ service }) => service === 'cubic-carton')).toMatchObject({
      cubicTier: '0.10',
      billedMass: { g: 907.1847, oz: 32 },
      bracketCeiling: null,
    });
    expect(offers.every(({ reasons }) => reasons.every((reason) => reason.includes(' ')))).toBe(true);
    expect(refused.find(({ service }) => service === 'light-parcel')?.why).toContain('16 oz too heavy');
  });

  it('puts a mass on a ceiling into that bracket, whatever its unit', async () => {
    const at = (weight: string): Promise<QuoteDocument> =>
      document(['quote', '--container', 'pouch-10x13', '--thickness', '1in', '--weight', weight, '--zone', '4']);
    const light = ({ offers }: QuoteDocument) => offers.find(({ service }) => service === 'light-parcel');
    const [ounces, pounds, above] = await Promise.all(['16oz', '1lb', '16.0001oz'].map(at));
    expect(light(ounces!)).toMatchObject({ bracketCeiling: { oz: 16 } });
    expect(light(pounds!)).toEqual(light(ounces!));
    expect(light(above!)).toBeUndefined();
  });

  it('finds the zone between two postcodes', async () => {
    const args = ['quote', '--soft', '15x12in', '--weight', '2lb', '--from', '55802', '--to', '60601'];
    const { offers }: QuoteDocument = await document(args);
    expect(offers[0]?.reasons.join()).toContain('60601');
  });

  it('speaks Spanish', async () => {
    const args = ['quote', '--soft', '15x12in', '--weight', '2lb', '--zone', '4', '--language', 'es'];
    const { offers }: QuoteDocument = await document(args);
    expect(offers[0]?.reasons.join()).toMatch(/[áéíóúñ]|tarifa|zona/i);
  });
});

describe('plan', () => {
  interface PlanDocument {
    readonly orders: readonly {
      order: string;
      parcels: readonly { pieces: string[]; folds: { piece: string; width: { mm: number } }[] }[];
      cost: { total: number; postage: number; materials: number; labour: number; risk: number };
      whyNot: { why: string }[];
    }[];
  }
  const files = () => ['--pieces', file('pieces.csv', PIECES), '--orders', file('orders.csv', ORDERS)];

  it('plans every order of a file', async () => {
    const { orders }: PlanDocument = await document(['plan', ...files(), '--on', '2026-11-25']);
    expect(orders.map(({ order }) => order)).toEqual(['7001', '7002']);
    expect(orders.flatMap(({ parcels }) => parcels.flatMap(({ pieces }) => pieces)).toSorted()).toEqual([
      'A-1',
      'A-2',
      'A-3',
    ]);
    for (const { parcels, cost, whyNot } of orders) {
      expect(parcels[0]?.folds[0]?.width.mm).toBeGreaterThan(100);
      expect(cost.total).toBeCloseTo(cost.postage + cost.materials + cost.labour + cost.risk, 2);
      expect(whyNot.length).toBeGreaterThan(5);
    }
  });

  it('leaves out a container', async () => {
    const first = await document(['plan', ...files(), '--order', '7001']);
    const [order] = (first as PlanDocument).orders;
    const container = (order?.parcels[0] as unknown as { container: string }).container;
    const next = await document(['plan', ...files(), '--order', '7001', '--without', container]);
    expect((next as PlanDocument).orders[0]?.parcels[0]).not.toMatchObject({ container });
  });

  it('names every refused line on stderr, plans the others and exits with 1', async () => {
    const pieces = file('bad-pieces.csv', `${PIECES}A-4,Sail,sail,M,,,,,,,\n`);
    const orders = file('orders.csv', ORDERS);
    const { exit, stdout, stderr } = await run(['plan', '--pieces', pieces, '--orders', orders, '--json']);
    expect(exit).toBe(1);
    expect(stderr).toMatch(/bad-pieces\.csv:5 {2}kind: expected .*; found "sail"/);
    expect((JSON.parse(stdout) as PlanDocument).orders).toHaveLength(2);
  });
});

describe('plan with what was learned, promised and preferred', () => {
  const PROMISED = `order,skus,buyer,postcode,country,shipBy,arriveBy
7003,A-2,Test Buyer,60601,US,2026-11-27T16:00:00Z,2026-11-28
7004,A-4,Test Buyer,60601,US,2026-11-27T16:00:00Z,2030-01-01
`;
  const DEAR = `${PIECES}A-4,Signed tee,t-shirt,M,jersey,,5.6 oz,,,150.00,K1\n`;
  const files = () => ['--pieces', file('pieces.csv', DEAR), '--orders', file('promised.csv', PROMISED)];

  it('says what was promised and whether it is kept, and names both pouches of a double bag', async () => {
    const {
      orders,
    }: { orders: { promise: unknown; parcels: { fit: object; doubleBag?: object; folds: object[] }[] }[] } =
      await document(['plan', ...files(), '--on', '2026-11-27']);
    expect(orders.map(({ promise }) => promise)).toEqual([
      { arriveBy: '2026-11-28', kept: false },
      { arriveBy: '2030-01-01', kept: true },
    ]);
    expect(orders[0]?.parcels[0]?.fit).toMatchObject({ piles: 1 });
    expect(orders[0]?.parcels[0]).not.toHaveProperty('doubleBag');
    expect(orders[1]?.parcels[0]?.doubleBag).toEqual({ outer: 'pouch-12x15', inner: 'pouch-10x13' });
    expect(orders[1]?.parcels[0]?.folds[0]).toMatchObject({
      steps: expect.arrayContaining(['Wrap it in a sheet of tissue']) as string[],
    });
  });

  it('plans with the masses that a data folder has learned, also for an estimate, and names a folder without a store', async () => {
    const data = temporaryFolder('cli-learned');
    const store = await openStore(data.path);
    const mass = { mean: 900, meanWeight: 40, variance: 100, varianceWeight: 40, count: 36 };
    await saveBelief(store, { kind: 'jeans', mass, factor: null }, 0);
    await store.destroy();
    const expected = async (...more: readonly string[]) => {
      const { orders }: { orders: { parcels: { folds: { mass: { expected: { g: number } } }[] }[] }[] } =
        await document(['plan', ...files(), ...more]);
      return orders[0]?.parcels[0]?.folds[0]?.mass.expected.g;
    };
    expect(await expected()).toBeCloseTo(600, 3);
    expect(await expected('--data', data.path)).toBeCloseTo(900, 3);
    const pieces = ['--pieces', file('pieces.csv', DEAR)];
    expect(await document(['estimate', ...pieces, '--data', data.path])).not.toEqual(
      await document(['estimate', ...pieces]),
    );
    const { exit, stderr } = await run(['plan', ...files(), '--data', '/nowhere']);
    expect({ exit, stderr }).toEqual({
      exit: 1,
      stderr: expect.stringContaining(
        "--data: data folder /nowhere: expected a shop's store in benchfold.db",
      ) as string,
    });
    data.remove();
  });

  it('reads the files of a source as the office of a data folder was told', async () => {
    const data = temporaryFolder('cli-sources');
    const store = await openStore(data.path);
    const header = ['Nr', 'Das'];
    const mapping: SourceMapping = {
      name: 'stall',
      subject: 'pieces',
      header,
      fields: { sku: { column: 0 }, kind: { column: 1 } },
      decimalMark: null,
      days: null,
    };
    await saveSource(store, { mapping, headerKey: headerKey(header), now: 0 });
    await store.destroy();
    const pieces = ['--pieces', file('stall.csv', 'Nr;Das\nXX-1;jeans\nXX-2;moon\n')];
    expect(await run(['estimate', ...pieces])).toMatchObject({
      exit: 1,
      stderr: expect.stringContaining('stall.csv:1  expected a column for sku') as string,
    });
    const known = await run(['estimate', ...pieces, '--data', data.path]);
    expect(known.stdout).toContain('XX-1');
    expect(known.stderr).toContain('stall.csv:3  Das: expected a kind:');
    data.remove();
  });
});

describe('check', () => {
  it('finds the project’s own config in order', async () => {
    expect(await document(['check'])).toMatchObject({ valid: true, problems: [] });
  });

  it('names what is wrong in a folder and exits with 1', async () => {
    file('shop.yaml', 'name: Test\n');
    const { exit, stdout, stderr } = await run(['check', folder, '--json']);
    expect(exit).toBe(1);
    expect(stderr).toContain('shop.yaml');
    expect(JSON.parse(stdout)).toMatchObject({ valid: false });
  });
});

describe('estimate', () => {
  interface Estimated {
    readonly pieces: readonly {
      readonly piece: string;
      readonly cheapest: { readonly cost: { readonly minor: number } };
      readonly dearest: { readonly cost: { readonly minor: number } };
      readonly charge: { readonly minor: number };
      readonly zones: readonly unknown[];
      readonly warnings: readonly { readonly code: string }[];
    }[];
  }
  const estimate = (...more: readonly string[]): Promise<Estimated> =>
    document(['estimate', '--pieces', file('pieces.csv', PIECES), ...more]);

  it('has every piece with its cheapest and dearest zone and what covers them', async () => {
    const { pieces } = await estimate();
    expect(pieces.map(({ piece }) => piece)).toEqual(['A-1', 'A-2', 'A-3']);
    for (const { cheapest, dearest, charge, zones } of pieces) {
      expect(zones).toHaveLength(8);
      expect(dearest.cost.minor).toBeGreaterThan(cheapest.cost.minor);
      expect(charge).toEqual(dearest.cost);
    }
    const weighed = (index: number) => pieces[index]?.warnings.every(({ code }) => code !== 'not-weighed');
    expect([weighed(0), weighed(1)]).toEqual([true, false]);
  });

  it('goes by the zones and the share that it is given', async () => {
    const [tee] = (await estimate('--zone', '1=9', '--zone', '8=1', '--cover', '90')).pieces;
    expect(tee?.zones).toHaveLength(2);
    expect(tee?.charge).toEqual(tee?.cheapest.cost);
  });
});

describe('errors', () => {
  it.each<[string, number, string, readonly string[]]>([
    ['no command', 2, 'expected a command', []],
    ['an unknown command', 2, 'found "fly"', ['fly']],
    ['an unknown option', 2, '--fast', ['verdict', '--fast']],
    ['a missing option', 2, '--reading: expected', ['verdict', '--division', '0.1oz']],
    ['an option twice', 2, 'expected once', ['verdict', '--reading', '1oz', '--reading', '2oz']],
    ['two shapes', 2, 'one of --container', ['quote', '--size', '1x1x1', '--soft', '1x1', '--weight', '1oz']],
    ['no quantity', 1, '--reading: mass', ['verdict', '--reading', 'heavy', '--division', '1g', '--ceiling', '1g']],
    ['an unknown container', 1, 'found "bucket"', ['quote', '--container', 'bucket', '--weight', '1oz', '--zone', '1']],
    ['a size of nothing', 1, '--size', ['quote', '--size', '0x8x2in', '--weight', '1oz', '--zone', '1']],
    [
      'no such day',
      1,
      '2026-02-30',
      ['quote', '--soft', '9x9', '--weight', '1oz', '--zone', '1', '--on', '2026-02-30'],
    ],
    ['an unknown zone', 1, 'found "77"', ['estimate', '--pieces', '/missing.csv', '--zone', '77']],
    ['a zone of no weight', 1, '--zone: expected', ['estimate', '--pieces', '/missing.csv', '--zone', '5=0']],
    ['no percentage', 1, '--cover: expected', ['estimate', '--pieces', '/missing.csv', '--cover', 'most']],
    ['a scale without steps', 1, '--division', ['verdict', '--reading', '9g', '--division', '0g', '--ceiling', '9g']],
    ['no such file', 1, 'missing.csv', ['plan', '--pieces', '/missing.csv', '--orders', '/missing.csv']],
    ['no config', 1, 'nowhere', ['quote', '--soft', '9x9', '--weight', '1oz', '--zone', '1', '--config', '/nowhere']],
  ])('answers %s with exit %d on stderr and nothing on stdout', async (_, exit, words, args) => {
    const found = await run(args);
    expect(found.stderr).toContain(words);
    expect(found.stderr).not.toMatch(/\n\s+at /);
    expect({ exit: found.exit, stdout: found.stdout }).toEqual({ exit, stdout: '' });
  });
});

describe('as a process, from another folder', () => {
  it('prints one JSON document and nothing else', async () => {
    const args = ['verdict', '--reading', '15.9oz', '--division', '0.1oz', '--ceiling', '16oz', '--json'];
    const { exit, stdout, stderr } = await runCliProcess(args);
    expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
    expect(JSON.parse(stdout)).toMatchObject({ verdict: 'close', margin: { oz: 0.1 } });
  });

  it('writes a long document whole into a pipe, finding the files where the command was given', async () => {
    file('pieces.csv', PIECES);
    file('orders.csv', ORDERS);
    const args = ['plan', '--pieces', 'pieces.csv', '--orders', 'orders.csv', '--json'];
    const { exit, stdout, stderr } = await runCliProcess(args, { INIT_CWD: folder });
    expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
    expect(stdout.length).toBeGreaterThan(65_536);
    expect((JSON.parse(stdout) as { orders: unknown[] }).orders).toHaveLength(2);
  });

  it('takes the config folder from the environment, and exits with 1 on bad input', async () => {
    expect(await runCliProcess(['check'], { BENCHFOLD_CONFIG: '/nowhere' })).toEqual({
      exit: 1,
      stdout: '',
      stderr: '/nowhere: expected a config folder, found nothing there\n',
    });
  });

  it('exits with 2 on wrong usage', async () => {
    const { exit, stdout, stderr } = await runCliProcess(['fly']);
    expect({ exit, stdout }).toEqual({ exit: 2, stdout: '' });
    expect(stderr).toContain('expected a command, found "fly"');
  });
});
