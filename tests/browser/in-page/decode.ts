import type { CodeDecoder } from '#station-ui/camera/code-decoder.ts';
import { joinedDecoder } from '#station-ui/camera/joined-decoder.ts';
import { quaggaDecoder } from '#station-ui/camera/quagga-decoder.ts';
import { zxingDecoder } from '#station-ui/camera/zxing-decoder.ts';
import type { Decoded } from '#tests/support/camera/decoded.ts';

export interface DecodePage {
  /** fetches a greyscale picture, one byte a point, and shows it to each decoder and to both together */
  readonly decode: (url: string, width: number, height: number) => Promise<Decoded>;
}

const ready = begin();

async function begin() {
  const [zxing, quagga] = [await zxingDecoder(), await quaggaDecoder()];
  // Every picture here is another one: the turned decoder looks at each that the straight one could not read.
  return { zxing, quagga, both: joinedDecoder(zxing, quagga, 1) };
}

async function decode(url: string, width: number, height: number): Promise<Decoded> {
  const decoders = await ready;
  const grey = new Uint8Array(await (await fetch(url)).arrayBuffer());
  const colours = new Uint8ClampedArray(width * height * 4);
  grey.forEach((brightness, at) => colours.fill(brightness, at * 4, at * 4 + 3));
  for (let at = 3; at < colours.length; at += 4) colours[at] = 255;
  const picture = new ImageData(colours, width, height);
  const timed = async (decoder: CodeDecoder) => {
    const from = performance.now();
    const reads = await decoder.decode(picture);
    return { reads, took: performance.now() - from };
  };
  return { zxing: await timed(decoders.zxing), quagga: await timed(decoders.quagga), both: await timed(decoders.both) };
}

Object.assign(globalThis, { decodePage: { decode } satisfies DecodePage });
