/** A JPEG of the given size as far as its markers go (ITU-T T.81, annex B); its picture data are made up. */
export function smallJpeg(width: number, height: number, data: readonly number[] = [1, 2, 3]): Uint8Array {
  const two = (number: number) => [number >> 8, number & 0xff];
  return Uint8Array.from([
    ...[0xff, 0xd8],
    // APP0 with "JFIF", version 1.1
    ...[0xff, 0xe0, ...two(16), 0x4a, 0x46, 0x49, 0x46, 0, 1, 1, 0, ...two(1), ...two(1), 0, 0],
    // SOF0: 8 bits, lines, samples a line, one component
    ...[0xff, 0xc0, ...two(11), 8, ...two(height), ...two(width), 1, 1, 0x11, 0],
    // SOS and the entropy-coded data
    ...[0xff, 0xda, ...two(8), 1, 1, 0, 0, 63, 0, ...data],
    ...[0xff, 0xd9],
  ]);
}
