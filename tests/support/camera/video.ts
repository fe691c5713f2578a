import { openSync, writeSync, closeSync } from 'node:fs';

/** Writes greyscale pictures as an uncompressed video (YUV4MPEG2, 4:2:0), which Chromium takes for a camera. */
export function writeVideo(
  file: string,
  { width, height, perSecond }: { readonly width: number; readonly height: number; readonly perSecond: number },
  pictures: Iterable<Uint8Array>,
): string {
  const out = openSync(file, 'w');
  writeSync(out, `YUV4MPEG2 W${width} H${height} F${perSecond}:1 Ip A1:1 C420jpeg\n`);
  const colourless = new Uint8Array(2 * Math.ceil(width / 2) * Math.ceil(height / 2)).fill(128);
  for (const picture of pictures) {
    writeSync(out, 'FRAME\n');
    writeSync(out, picture);
    writeSync(out, colourless);
  }
  closeSync(out);
  return file;
}
