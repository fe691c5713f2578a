import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import ts from 'typescript';
import { afterAll, describe, expect, it } from 'vitest';
import { checkFolder, loadShop } from '#config/load.ts';
import { runCli } from '#server/cli/cli.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';

/** Each "How to add" of DEVELOPERS.md, done once. */
const ROOT = resolve(import.meta.dirname, '../..');
afterAll(removeConfigFolders);

const howTo = readFileSync('DEVELOPERS.md', 'utf8').split('\n## How to add\n')[1]?.split('\n## ')[0] ?? '';

/** What a command of the command line prints as JSON, on a config folder. */
async function printed<Document>(config: string, ...args: readonly string[]): Promise<Document> {
  const surroundings = { now: Date.parse('2026-11-25T18:00:00Z'), config, workingFolder: config };
  const rest = { stdin: () => new Uint8Array(), wire: '', templates: '' };
  const { exit, stdout, stderr } = await runCli([...args, '--json'], { ...surroundings, ...rest });
  expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
  return JSON.parse(stdout) as Document;
}

interface Plans {
  readonly orders: readonly {
    readonly parcels: readonly {
      readonly container: string;
      readonly folds: readonly { readonly piece: string; readonly recipe: string }[];
    }[];
  }[];
}

async function planOf(
  config: string,
  kind: string,
  size: string,
): Promise<Plans['orders'][number]['parcels'][number] | undefined> {
  writeFileSync(join(config, 'p.csv'), `sku,title,kind,size\nNEW-1,Something,${kind},${size}\n`);
  writeFileSync(
    join(config, 'o.csv'),
    'order,skus,buyer,street,city,region,postcode,country,shipBy\n1,NEW-1,Ida,2 Lane,Duluth,MN,55802,US,+1d 16:30\n',
  );
  const { orders } = await printed<Plans>(config, 'plan', '--pieces', 'p.csv', '--orders', 'o.csv');
  return orders[0]?.parcels[0];
}

describe('how to add', () => {
  it('names a place for each, in a section of its own', () => {
    for (const thing of ['garment', 'recipe', 'container', 'price rule', 'scale protocol', 'language']) {
      expect(howTo).toMatch(new RegExp(`^\\| a ${thing}`, 'm'));
    }
  });

  it('a garment: one entry of garments.yaml', async () => {
    const config = copyOfConfig();
    appendFileSync(
      join(config, 'garments.yaml'),
      `  tabard:
    name: { en: Tabard, es: Tabardo }
    outline: top
    sizes:
      'M': { width: 60 cm, length: 75 cm, sleeveLength: 5 cm, sleeveWidth: 30 cm, neckDepth: 10 cm }
    defaultSize: 'M'
    defaultCloth: denim
    mass: { mean: 380 g, sd: 50 g }
    clothLayers: 2
    recipes: [tee-thirds]
    source: made up for this test
`,
    );
    expect(checkFolder(config)).toEqual([]);
    expect((await planOf(config, 'tabard', 'M'))?.folds).toMatchObject([{ piece: 'NEW-1', recipe: 'tee-thirds' }]);
  });

  it('a recipe: one entry of recipes.yaml, which names the kinds that it is for', async () => {
    const config = copyOfConfig();
    const texts = `words: { en: Fold, es: Dobla }, spoken: { en: Fold, es: Dobla }`;
    appendFileSync(
      join(config, 'recipes.yaml'),
      `  tee-ribbon:
    name: { en: Ribbon, es: Cinta }
    kinds: [t-shirt]
    steps:
      - { do: sleeves-in, ${texts} }
      - { do: fold-width, from: right, to: 1/2, ${texts} }
      - { do: fold-width, from: left, to: 1/2, ${texts} }
      - { do: fold-width, from: right, to: 1/2, ${texts} }
      - { do: fold-length, from: bottom, to: 1/2, ${texts} }
      - { do: face-up, ${texts} }
`,
    );
    // A container that only a ribbon goes into.
    edit(config, 'containers.yaml', 'containers:\n', `containers:\n${container('sleeve', '5 in', '16 in')}`);
    expect(checkFolder(config)).toEqual([]);
    expect(loadShop(config).wardrobe.kinds.get('t-shirt')?.recipes.at(-1)).toBe('tee-ribbon');
    expect(await planOf(config, 't-shirt', 'S')).toMatchObject({
      container: 'sleeve',
      folds: [{ recipe: 'tee-ribbon' }],
    });
    edit(config, 'recipes.yaml', 'kinds: [t-shirt]', 'kinds: [t-shirrt]');
    expect(checkFolder(config)[0]).toMatchObject({ file: 'recipes.yaml', path: 'recipes.tee-ribbon.kinds[0]' });
  });

  it('a container: one entry of containers.yaml, its rules with it', async () => {
    const config = copyOfConfig();
    edit(config, 'containers.yaml', 'containers:\n', `containers:\n${container('free-pouch', '10 in', '13 in')}`);
    expect(checkFolder(config)).toEqual([]);
    expect((await planOf(config, 't-shirt', 'M'))?.container).toBe('free-pouch');
    // Its own rule: nothing thicker than this lies in it.
    edit(config, 'containers.yaml', 'type: pouch\n    thicknessCap: 9 in', 'type: card\n    thicknessCap: 0.1 in');
    expect((await planOf(config, 't-shirt', 'M'))?.container).not.toBe('free-pouch');
  });

  it('a price rule: one file in rate-cards, or one entry of it', async () => {
    const config = copyOfConfig();
    writeFileSync(
      join(config, 'rate-cards/courier.yaml'),
      `carrier: quay-courier
name: { en: Quay Courier, es: Mensajería Quay }
currency: USD
units: { mass: oz, length: in }
from: 2026-01-01
zones: [{ by: flat, zone: all }]
services:
  - id: by-girth
    name: { en: By length and width, es: Por largo y ancho }
    limits: [{ limit: largest-mass, most: 2 lb }]
    prices:
      - rule: cubic-soft
        zones: [all]
        sides: { mode: down, step: 0.25 in }
        tiers: [{ tier: small, upTo: 21 in, prices: [1.11] }, { tier: large, upTo: 36 in, prices: [2.22] }]
`,
    );
    expect(checkFolder(config)).toEqual([]);
    interface Quote {
      readonly offers: readonly { readonly service: string; readonly price: object; readonly cubicTier: string }[];
    }
    // 12 1/4 and 9 in: 21 1/4 in, just above the first tier.
    const { offers } = await printed<Quote>(config, 'quote', '--soft', '12.25x9in', '--weight', '8oz', '--zone', 'all');
    expect(offers).toMatchObject([{ service: 'by-girth', price: { minor: 222, currency: 'USD' }, cubicTier: 'large' }]);
  });

  it('a scale protocol: its name, and the row that the compiler then asks for', async () => {
    const name = {
      file: 'shared/weighing/scale-protocols.ts',
      from: "'hid'] as const;",
      to: "'hid', 'stitch'] as const;",
    };
    const row = {
      file: 'drivers/scale/protocol.ts',
      from: '  hid: () => (',
      to: `  stitch: () => ({ decoder: () => ({ push: (chunk) => [{ kind: 'weight', mass: massFromDecimal(new TextDecoder().decode(chunk).slice(1), 'g'), unit: 'g', places: 0, stability: 'still', net: false }] }), ask: '?', tasks: {}, questions: null }),\n  hid: () => (`,
    };
    const imported = {
      file: row.file,
      from: 'import ',
      to: "import { massFromDecimal } from '#shared/units/mass.ts';\nimport ",
    };
    expect(complaints([name], ['drivers/scale/protocol.ts'])).toEqual([
      expect.stringMatching(/^drivers\/scale\/protocol\.ts: Property 'stitch' is missing/),
    ]);
    const whole = [name, row, imported];
    expect(complaints(whole, ['drivers/scale/protocol.ts', 'config/schema/devices.ts'])).toEqual([]);
    const made = await bundled(
      `import { dialectOf } from './drivers/scale/protocol.ts';
       import { devicesFile } from './config/schema/devices.ts';
       export const frames = dialectOf('stitch', null).decoder().push(new TextEncoder().encode('=0451'));
       export const accepted = (file) => devicesFile.safeParse(file).success;`,
      whole,
    );
    expect(made.frames).toMatchObject([{ kind: 'weight', mass: 451 * 16_000_000_000 }]);
    const scale = {
      transport: { kind: 'serial', path: '/dev/ttyS0', baud: 9600 },
      protocol: 'stitch',
      division: '1 g',
    };
    const more = { capacity: '5 kg', accuracy: { kind: 'r76', when: 'in-service' }, drift: '1 g' };
    const printer = { transport: { kind: 'simulated' }, paper: 80, dotsPerLine: 576, columns: 48, cutter: true };
    const file = (protocol: string) => ({
      benches: {
        one: { name: 'One', scale: { ...scale, ...more, protocol }, scanner: null, printer, footSwitchKeys: [] },
      },
    });
    expect([made.accepted(file('stitch')), made.accepted(file('stich'))]).toEqual([true, false]);
  });

  it('a language: its two letters, and the words that the compiler then asks for, file by file', () => {
    const french = {
      file: 'shared/words/language.ts',
      from: "['en', 'es'] as const",
      to: "['en', 'es', 'fr'] as const",
    };
    const asked = [
      'station-ui/i18n/language.ts',
      'shared/voice/cue.ts',
      'drivers/printer/words.ts',
      'server/runs/slip-words.ts',
    ];
    const said = complaints([french], asked);
    for (const file of asked)
      expect(said.filter((each) => each.startsWith(`${file}: `)).length, file).toBeGreaterThan(0);
    expect(said.join('\n')).toContain("Property 'fr' is missing");
  });
});

/** A container that costs nothing, so that a plan takes it wherever it holds the piece. */
function container(id: string, width: string, length: string): string {
  return `  ${id}:
    name: { en: ${id}, es: ${id} }
    type: pouch
    thicknessCap: 9 in
    inside: { width: ${width}, length: ${length} }
    outside: { width: ${width}, length: ${length} }
    mass: 1 g
    massSd: 0.1 g
    cost: '0.00'
    seconds: 0
`;
}

interface Edit {
  readonly file: string;
  readonly from: string;
  readonly to: string;
}

/** A file's text with the edits made; null where none is of it. */
function edited(path: string, edits: readonly Edit[]): string | null {
  const own = edits.filter(({ file }) => resolve(ROOT, file) === path);
  if (own.length === 0) return null;
  return own.reduce(
    (text, { from, to }) => {
      if (!text.includes(from)) throw new Error(`${path} does not contain ${from}`);
      return text.replace(from, () => to);
    },
    readFileSync(path, 'utf8'),
  );
}

/** What the compiler says of some files once the edits are made, as `file: message`. */
function complaints(edits: readonly Edit[], files: readonly string[]): readonly string[] {
  const { config } = ts.readConfigFile(join(ROOT, 'tsconfig.json'), (path) => ts.sys.readFile(path)) as {
    config: { compilerOptions: object };
  };
  const { options } = ts.convertCompilerOptionsFromJson(config.compilerOptions, ROOT);
  const host = ts.createCompilerHost({ ...options, experimentalDecorators: true });
  const read = host.readFile.bind(host);
  host.readFile = (path) => edited(path, edits) ?? read(path);
  host.getSourceFile = (path, target) => {
    const text = host.readFile(path);
    return text === undefined ? undefined : ts.createSourceFile(path, text, target, true);
  };
  const all = files.map((file) => join(ROOT, file));
  const lib = ['lib.es2023.d.ts', 'lib.dom.d.ts', 'lib.dom.iterable.d.ts'];
  const program = ts.createProgram(all, { ...options, lib, types: ['node'] }, host);
  return all.flatMap((path) =>
    program
      .getSemanticDiagnostics(program.getSourceFile(path))
      .map(({ messageText }) => `${path.slice(ROOT.length + 1)}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`),
  );
}

interface Made {
  readonly frames: readonly object[];
  readonly accepted: (file: unknown) => boolean;
}

/** A module that runs on the sources with the edits made. */
async function bundled(contents: string, edits: readonly Edit[]): Promise<Made> {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: ROOT, loader: 'ts' },
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    plugins: [
      {
        name: 'edits',
        setup(own) {
          own.onLoad({ filter: /\.ts$/ }, ({ path }) => {
            const text = edited(path, edits);
            return text === null ? null : { contents: text, loader: 'ts' };
          });
        },
      },
    ],
  });
  return (await import(`data:text/javascript,${encodeURIComponent(outputFiles[0]?.text ?? '')}`)) as Made;
}
