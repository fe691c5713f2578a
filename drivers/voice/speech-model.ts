import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { existsSync } from 'node:fs';
import { FRAME, SAMPLE_RATE } from './sound.ts';

/** Tells voices from other noise. */
export interface SpeechModel {
  /** true while somebody speaks. `frame` is 512 samples, frames follow one another without a gap */
  readonly voice: (frame: Int16Array) => boolean;
  readonly reset: () => void;
}

interface Detector {
  acceptWaveform(samples: Float32Array): void;
  isDetected(): boolean;
  isEmpty(): boolean;
  pop(): void;
  reset(): void;
}
interface Sherpa {
  readonly Vad: new (config: object, bufferSeconds: number) => Detector;
}

/** Longer than any phrase and shorter than what the detector holds: six seconds. */
const LONGEST_FRAMES = Math.floor((6 * SAMPLE_RATE) / FRAME);

/** The Silero voice activity model (MIT), or null where this system cannot run it: the level alone decides then. */
export function openSpeechModel(threshold = 0.5): SpeechModel | null {
  const require = createRequire(import.meta.url);
  let detector: Detector;
  try {
    const model = join(dirname(require.resolve('@ricky0123/vad-web')), 'silero_vad_v5.onnx');
    if (!existsSync(model)) return null;
    const { Vad } = require('sherpa-onnx-node') as Sherpa;
    detector = new Vad(
      {
        sileroVad: {
          model,
          threshold,
          // The gate has its own times; the model's are as short as it takes them.
          minSpeechDuration: 0.03,
          minSilenceDuration: 0.03,
          maxSpeechDuration: 5,
          windowSize: FRAME,
        },
        sampleRate: SAMPLE_RATE,
        numThreads: 1,
        debug: 0,
      },
      10,
    );
  } catch {
    return null;
  }
  let voiced = 0;
  const reset = (): void => {
    voiced = 0;
    detector.reset();
  };
  return {
    voice(frame) {
      const samples = new Float32Array(frame.length);
      frame.forEach((sample, index) => (samples[index] = sample / 32_768));
      detector.acceptWaveform(samples);
      // Its own segments are not used, and would otherwise pile up.
      while (!detector.isEmpty()) detector.pop();
      const detected = detector.isDetected();
      voiced = detected ? voiced + 1 : 0;
      // It keeps all of a segment that does not end: a radio would fill the memory.
      if (voiced >= LONGEST_FRAMES) reset();
      return detected;
    },
    reset,
  };
}
