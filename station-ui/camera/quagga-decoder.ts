import type { QuaggaJSConfigObject, QuaggaJSResultObject, QuaggaJSStatic } from '@ericblade/quagga2';
import type { CameraSymbol, CodeRead } from '#shared/codes/camera-reads.ts';
import { FNC1 } from '#shared/codes/gs1.ts';
import type { CodeDecoder, Picture } from './code-decoder.ts';

/** The library's names of the symbols that it finds. */
const SYMBOLS: Readonly<Record<string, CameraSymbol>> = {
  code_128: 'code-128',
  code_39: 'code-39',
  ean_13: 'ean-upc',
  ean_8: 'ean-upc',
  upc_a: 'ean-upc',
  upc_e: 'ean-upc',
};
const CONFIG: QuaggaJSConfigObject = {
  locate: true,
  locator: { halfSample: true, patchSize: 'medium' },
  decoder: { readers: ['code_128_reader', 'ean_reader', 'ean_8_reader', 'upc_e_reader', 'code_39_reader'] },
};
/** The library looks at whole patches of the halved picture only. */
const GRAIN = 32;

/** A picture as the library keeps it: one byte of brightness a point. */
interface Brightness {
  data: Uint8Array;
  readonly size: { readonly x: number; readonly y: number; readonly type: 'XYSize' };
}

/** The library's own state for one source of pictures; it is made by `decodeSingle` only. */
interface Instance {
  locateAndDecode(): Promise<void>;
}

/** The parts of the library that its published types leave out. */
type Library = Omit<QuaggaJSStatic, 'ImageWrapper' | 'init'> & {
  readonly ImageWrapper: new (size: Brightness['size']) => Brightness;
  init(config: QuaggaJSConfigObject, ready: () => void, pictures: Brightness, instance: Instance): void;
};

/**
 * Reads bars at any angle. Pictures are handed to it as brightness, in a worker too: its own ways in are a camera that it
 * opens itself, or a picture that is first packed into a file, and both need the page's own thread.
 */
export async function quaggaDecoder(): Promise<CodeDecoder> {
  // The library names `window` when it is loaded; a worker has none.
  if (!('window' in globalThis)) Object.assign(globalThis, { window: globalThis });
  const { default: library } = (await import('@ericblade/quagga2')) as unknown as { default: Library };
  const instance = newInstance(library);
  let brightness: Brightness | null = null;
  return {
    decode: (picture) => {
      const size = { x: whole(picture.width), y: whole(picture.height), type: 'XYSize' } as const;
      if (size.x === 0 || size.y === 0) return Promise.resolve([]);
      if (brightness?.size.x !== size.x || brightness.size.y !== size.y) {
        brightness = new library.ImageWrapper(size);
        library.init(CONFIG, () => undefined, brightness, instance);
      }
      fill(brightness, picture);
      return processed(library, instance);
    },
  };
}

function whole(length: number): number {
  return Math.floor(length / GRAIN) * GRAIN;
}

/** `decodeSingle` makes an instance and gives it to `init` of the object that it is called on. */
function newInstance(library: Library): Instance {
  const made: Instance[] = [];
  const catcher = {
    init: (_config: unknown, _ready: unknown, _pictures: unknown, instance: Instance) => made.push(instance),
  };
  void library.decodeSingle.call(catcher as unknown as QuaggaJSStatic, CONFIG);
  const [instance] = made;
  if (instance === undefined) throw new Error('the library made no instance');
  return instance;
}

/** Luma of ITU-R BT.601, in 1/256. */
function fill({ data, size }: Brightness, picture: Picture): void {
  for (let y = 0; y < size.y; y++) {
    for (let x = 0; x < size.x; x++) {
      const from = (y * picture.width + x) * 4;
      const red = picture.data[from] ?? 0;
      const green = picture.data[from + 1] ?? 0;
      const blue = picture.data[from + 2] ?? 0;
      data[y * size.x + x] = (77 * red + 150 * green + 29 * blue) >> 8;
    }
  }
}

async function processed(library: Library, instance: Instance): Promise<readonly CodeRead[]> {
  const reads: CodeRead[] = [];
  const take = (result: QuaggaJSResultObject | null | undefined): void => {
    const read = asRead(result);
    if (read !== null) reads.push(read);
  };
  library.onProcessed(take);
  try {
    await instance.locateAndDecode();
  } finally {
    library.offProcessed(take);
  }
  return reads;
}

function asRead(result: QuaggaJSResultObject | null | undefined): CodeRead | null {
  const found = result?.codeResult;
  const code = found?.code ?? '';
  const symbol = found === undefined ? undefined : SYMBOLS[found.format];
  if (code === '' || symbol === undefined) return null;
  // A leading FNC1 says that this is an element string; scanners tell it by the flag.
  return { text: symbol === 'code-128' && code.startsWith(FNC1) ? `]C1${code.slice(1)}` : code, symbol };
}
