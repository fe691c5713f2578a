import type { CodeRead } from '#shared/codes/camera-reads.ts';
import type { CodeDecoder } from './code-decoder.ts';
import { joinedDecoder } from './joined-decoder.ts';

/** What the worker answers: first whether it can decode at all, then the reads of each picture, in order. */
export type DecodeAnswer =
  | { readonly kind: 'ready'; readonly turned: boolean }
  | { readonly kind: 'reads'; readonly reads: readonly CodeRead[] }
  | { readonly kind: 'failed' };

const answer = (what: DecodeAnswer): void => postMessage(what);
const begun = begin();

async function begin(): Promise<CodeDecoder | null> {
  try {
    const { zxingDecoder } = await import('./zxing-decoder.ts');
    const straight = await zxingDecoder();
    const turned = await turnedDecoder();
    answer({ kind: 'ready', turned: turned !== null });
    return joinedDecoder(straight, turned);
  } catch (error) {
    console.warn('the decoders could not be loaded', error);
    answer({ kind: 'failed' });
    return null;
  }
}

/** Without it codes that are held askew are not read; the rest works. */
async function turnedDecoder(): Promise<CodeDecoder | null> {
  try {
    const { quaggaDecoder } = await import('./quagga-decoder.ts');
    return await quaggaDecoder();
  } catch (error) {
    console.warn('the decoder of turned codes could not be loaded', error);
    return null;
  }
}

addEventListener('message', (event: MessageEvent<ImageData>) => {
  void begun.then(async (decoder) => {
    if (decoder === null) return;
    try {
      answer({ kind: 'reads', reads: await decoder.decode(event.data) });
    } catch (error) {
      console.warn('a picture broke the decoder', error);
      answer({ kind: 'failed' });
    }
  });
});
