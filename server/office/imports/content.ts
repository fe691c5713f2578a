import { createReadStream } from 'node:fs';

/** What a table file holds: in memory where it is short, else on the disk, from where it is read piece by piece. */
export type Content = Uint8Array | { readonly path: string };

/** So much is read at once. */
const PIECE_BYTES = 64 * 1024;

/** Its bytes, in pieces that are not longer than some milliseconds of work. */
export async function* piecesOf(content: Content): AsyncGenerator<Uint8Array, void> {
  if (content instanceof Uint8Array) {
    for (let at = 0; at < content.length; at += PIECE_BYTES) yield content.subarray(at, at + PIECE_BYTES);
    return;
  }
  yield* createReadStream(content.path, { highWaterMark: PIECE_BYTES }) as AsyncIterable<Buffer>;
}
