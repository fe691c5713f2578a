import { openBrowser } from '../support/browser.ts';
import { decodeSite } from '../support/camera/decode-site.ts';
import { photograph, type Shot } from '../support/camera/photograph.ts';
import { printedSymbol } from '../support/camera/symbol.ts';
import type { Decoded } from '../support/camera/decoded.ts';
import { sameThing, type CameraSymbol, type CodeRead } from '#shared/codes/camera-reads.ts';
import { atLeast, atMost, plain, type Figure } from './figure.ts';

const BENCH = 'devices';
const DECODERS = ['zxing', 'quagga', 'both'] as const;
type DecoderName = (typeof DECODERS)[number];

/** Article numbers: the worked examples of the GS1 General Specifications that the tests of check digits use. */
const SYMBOLS: readonly { readonly kind: string; readonly symbol: CameraSymbol; readonly text: string }[] = [
  { kind: 'code128', symbol: 'code-128', text: 'OT-0231' },
  { kind: 'ean13', symbol: 'ean-upc', text: '7300011000017' },
  { kind: 'upca', symbol: 'ean-upc', text: '036000241457' },
  { kind: 'code39', symbol: 'code-39', text: 'OT-23' },
  { kind: 'qrcode', symbol: 'qr', text: 'OT-0231' },
  { kind: 'datamatrix', symbol: 'data-matrix', text: 'OT-0231' },
];
const WIDTHS = [2, 3, 4];
const TURNS = [0, 15, 45, 90];
const CONDITIONS: Readonly<Record<string, Pick<Shot, 'blur' | 'noise' | 'light'>>> = {
  clear: { blur: 0.5, noise: 2 },
  'out of focus': { blur: 1, noise: 2 },
  'far out of focus': { blur: 1.6, noise: 2 },
  noisy: { blur: 0.5, noise: 18 },
  dim: { blur: 0.5, noise: 4, light: 'dim' },
  shadow: { blur: 0.5, noise: 4, light: 'shadow' },
  'all at once': { blur: 0.9, noise: 9, light: 'shadow' },
};
const SIZE = { width: 640, height: 480 };

interface Looked {
  readonly kind: string;
  readonly moduleWidth: number;
  readonly turn: number;
  readonly condition: string;
  readonly expected: CodeRead;
  readonly decoded: Decoded;
}

/** How many of a set of pictures each decoder reads, and both together, in a real browser. */
export async function cameraDecoding(): Promise<readonly Figure[]> {
  const site = await decodeSite();
  const browser = await openBrowser();
  try {
    const page = await browser.newPage();
    await page.goto(site.url);
    await page.waitForFunction('globalThis.decodePage !== undefined');
    const look = async (picture: Uint8Array): Promise<Decoded> =>
      page.evaluate(`decodePage.decode('${site.offer(picture)}', ${SIZE.width}, ${SIZE.height})`);
    const looked: Looked[] = [];
    for (const { kind, symbol, text } of SYMBOLS) {
      const printed = printedSymbol(kind, text);
      // The first picture of a kind also pays for what is made ready then.
      await look(photograph(printed, { ...SIZE, moduleWidth: 3 }));
      for (const moduleWidth of WIDTHS) {
        for (const turn of TURNS) {
          for (const [condition, how] of Object.entries(CONDITIONS)) {
            const shot = { ...SIZE, moduleWidth, turn, seed: looked.length + 1, ...how };
            const decoded = await look(photograph(printed, shot));
            looked.push({ kind, moduleWidth, turn, condition, expected: { text, symbol }, decoded });
          }
        }
      }
    }
    return figuresOf(looked);
  } finally {
    await browser.close();
    site.close();
  }
}

const isRight = (read: CodeRead, { expected }: Looked): boolean =>
  read.symbol === expected.symbol && sameThing(read) === sameThing(expected);
const reads = (decoder: DecoderName) => (each: Looked) =>
  each.decoded[decoder].reads.some((read) => isRight(read, each));
const wrong = (decoder: DecoderName, all: readonly Looked[]): readonly string[] =>
  all.flatMap((each) => each.decoded[decoder].reads.filter((read) => !isRight(read, each)).map(({ text }) => text));

function figuresOf(all: readonly Looked[]): readonly Figure[] {
  const against = `${all.length} generated pictures of ${SIZE.width} x ${SIZE.height}, one read each`;
  const share = (decoder: DecoderName, some: readonly Looked[]): number =>
    Math.round((1000 * some.filter(reads(decoder)).length) / some.length) / 10;
  const groups: readonly (readonly [string, (each: Looked) => boolean])[] = [
    ...SYMBOLS.map(({ kind }) => [kind, (each: Looked) => each.kind === kind] as const),
    ...WIDTHS.map((width) => [`module ${width} px`, (each: Looked) => each.moduleWidth === width] as const),
    ...TURNS.map((turn) => [`turned ${turn}°`, (each: Looked) => each.turn === turn] as const),
    ...Object.keys(CONDITIONS).map((name) => [name, (each: Looked) => each.condition === name] as const),
  ];
  const rate = (name: string, decoder: DecoderName, some: readonly Looked[]): Figure =>
    plain({ bench: BENCH, name: `camera, ${decoder}: read, ${name}`, value: share(decoder, some), unit: '%', against });
  const best = Math.max(share('zxing', all), share('quagga', all));
  const held = all.filter((each) => each.moduleWidth >= 3 && ['clear', 'shadow'].includes(each.condition));
  const twice = (texts: readonly string[]): number =>
    new Set(texts.filter((text, at) => texts.indexOf(text) !== at)).size;
  return [
    ...(['zxing', 'quagga'] as const).map((decoder) => rate('all', decoder, all)),
    atLeast({
      bench: BENCH,
      name: 'camera, both: read, all',
      value: share('both', all),
      unit: '%',
      goal: best,
      against,
    }),
    atLeast({
      bench: BENCH,
      name: 'camera, both: read, held well (modules of 3 px and more, in focus, bright)',
      value: share('both', held),
      unit: '%',
      goal: 95,
      against,
    }),
    ...groups.flatMap(([name, belongs]) => DECODERS.map((decoder) => rate(name, decoder, all.filter(belongs)))),
    ...DECODERS.map((decoder) =>
      plain({
        bench: BENCH,
        name: `camera, ${decoder}: false reads`,
        value: wrong(decoder, all).length,
        unit: 'reads',
        against,
      }),
    ),
    atMost({
      bench: BENCH,
      name: 'camera, both: false texts seen in two pictures',
      value: twice(wrong('both', all)),
      unit: 'texts',
      goal: 0,
      against,
    }),
    ...DECODERS.flatMap((decoder) => {
      const times = all.map((each) => each.decoded[decoder].took).sort((a, b) => a - b);
      return ([0.5, 0.95] as const).map((part) =>
        plain({
          bench: BENCH,
          name: `camera, ${decoder}: one picture, p${part * 100}`,
          value: times[Math.floor(times.length * part)] ?? Number.NaN,
          unit: 'ms',
          against,
        }),
      );
    }),
  ];
}
