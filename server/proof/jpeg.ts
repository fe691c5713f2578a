/** Size of a picture in pixels. */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

const MOST_PIXELS_A_SIDE = 8192;

/**
 * Reads how large a JPEG is, from its markers alone (ITU-T T.81, annex B: SOI, segments with their length, a frame header
 * SOF0 to SOF15 that holds lines and samples, EOI at the end). Null for whatever is no whole JPEG.
 */
export function jpegSize(bytes: Uint8Array): PictureSize | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { byteLength } = view;
  if (byteLength < 4 || view.getUint16(0) !== 0xffd8 || view.getUint16(byteLength - 2) !== 0xffd9) return null;
  let at = 2;
  while (at + 4 <= byteLength) {
    if (view.getUint8(at) !== 0xff) return null;
    const marker = view.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = view.getUint16(at + 2);
    if (length < 2 || at + 2 + length > byteLength) return null;
    if (isFrameHeader(marker)) {
      if (length < 8) return null;
      const size = { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
      const sane = (side: number) => side > 0 && side <= MOST_PIXELS_A_SIDE;
      return sane(size.width) && sane(size.height) ? size : null;
    }
    // The picture's data begin: there was no frame header before them.
    if (marker === 0xda) return null;
    at += 2 + length;
  }
  return null;
}

/** SOF0 to SOF15 without DHT, JPG and DAC, which lie among them. */
function isFrameHeader(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}
