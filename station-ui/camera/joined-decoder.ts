import type { CodeRead } from '#shared/codes/camera-reads.ts';
import type { CodeDecoder, Picture } from './code-decoder.ts';

/**
 * Every second picture. Most pictures show no code at all, and on each of them the turned decoder costs its time again for
 * the few that are held askew; a code that only it can read is still in sight two pictures later.
 */
const TURNED_EVERY = 2;

/**
 * Two decoders that complement each other: the straight one looks at every picture, the turned one at every second of
 * those in which the straight one saw nothing. Where the turned one fails, the straight one goes on alone.
 */
export function joinedDecoder(straight: CodeDecoder, turned: CodeDecoder | null, every = TURNED_EVERY): CodeDecoder {
  let since = 0;
  let second = turned;
  const alsoTurned = async (picture: Picture): Promise<readonly CodeRead[]> => {
    since += 1;
    if (second === null || since < every) return [];
    since = 0;
    try {
      return await second.decode(picture);
    } catch {
      second = null;
      return [];
    }
  };
  return {
    decode: async (picture) => {
      const reads = await straight.decode(picture);
      return reads.length > 0 ? reads : alsoTurned(picture);
    },
  };
}
