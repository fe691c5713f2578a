import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import type { ReadInputBarcodeFormat, ReadResult } from 'zxing-wasm/reader';
import wasmUrl from 'zxing-wasm/reader/zxing_reader.wasm?url';
import type { CameraSymbol, CodeRead } from '#shared/codes/camera-reads.ts';
import type { CodeDecoder } from './code-decoder.ts';

const FORMATS: readonly (readonly [ReadInputBarcodeFormat, CameraSymbol])[] = [
  ['Code128', 'code-128'],
  ['Code39', 'code-39'],
  ['EAN13', 'ean-upc'],
  ['EAN8', 'ean-upc'],
  ['UPCA', 'ean-upc'],
  ['UPCE', 'ean-upc'],
  ['QRCode', 'qr'],
  ['DataMatrix', 'data-matrix'],
];

/** Reads straight codes, small ones and square ones, quickly. Its program is served by the station, never by the internet. */
export async function zxingDecoder(): Promise<CodeDecoder> {
  await prepareZXingModule({ overrides: { locateFile: () => wasmUrl }, fireImmediately: true });
  const formats = FORMATS.map(([format]) => format);
  return {
    decode: async (picture) => {
      const results = await readBarcodes(picture, { formats, textMode: 'Plain', maxNumberOfSymbols: 8 });
      return results.flatMap((result) => asRead(result) ?? []);
    },
  };
}

function asRead(result: ReadResult): CodeRead | null {
  const symbol = symbolOf(result);
  // One symbol of several that make up a text together is a half-read code.
  const partial = result.sequenceSize !== -1;
  if (!result.isValid || partial || result.text === '' || symbol === null) return null;
  // Only element strings need the flag: it says that the separators in them are FNC1.
  const flag = result.contentType === 'GS1' ? result.symbologyIdentifier : '';
  return { text: flag + result.text, symbol };
}

function symbolOf({ format }: ReadResult): CameraSymbol | null {
  return FORMATS.find(([each]) => each === format)?.[1] ?? null;
}
