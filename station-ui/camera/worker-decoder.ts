import type { CodeRead } from '#shared/codes/camera-reads.ts';
import { CameraError } from './camera-trouble.ts';
import type { CodeDecoder, Picture } from './code-decoder.ts';
import type { DecodeAnswer } from './decode-worker.ts';

export interface WorkerDecoder extends CodeDecoder {
  /** false where codes that are held askew are not read */
  readonly turned: boolean;
  readonly close: () => void;
}

/**
 * The decoders in a thread of their own, so that the page answers touches while a picture is looked at. They are loaded
 * when the camera is switched on, not before.
 * @throws CameraError `decoder` when they cannot be loaded
 */
export function workerDecoder(): Promise<WorkerDecoder> {
  const worker = new Worker(new URL('./decode-worker.ts', import.meta.url), { type: 'module' });
  return new Promise((ready, failed) => {
    const waiting: { taken: (reads: readonly CodeRead[]) => void; broken: (error: Error) => void }[] = [];
    const broken = (): void => {
      const error = new CameraError('decoder');
      failed(error);
      for (const each of waiting.splice(0)) each.broken(error);
      worker.terminate();
    };
    const decoder = (turned: boolean): WorkerDecoder => ({
      turned,
      decode: (picture: Picture) =>
        new Promise((taken, failedToRead) => {
          waiting.push({ taken, broken: failedToRead });
          worker.postMessage(picture, [picture.data.buffer]);
        }),
      close: () => worker.terminate(),
    });
    worker.onmessage = (event: MessageEvent<DecodeAnswer>) => {
      const answer = event.data;
      if (answer.kind === 'ready') ready(decoder(answer.turned));
      else if (answer.kind === 'failed') broken();
      else waiting.shift()?.taken(answer.reads);
    };
    worker.onerror = broken;
  });
}
