import type { MicrophoneTrouble } from './microphone-trouble.ts';
import workletUrl from './microphone-worklet.ts?worker&url';

export class MicrophoneError extends Error {
  override readonly name = 'MicrophoneError';
  constructor(readonly code: MicrophoneTrouble) {
    super(code);
  }
}

export interface MicrophoneHandlers {
  /** 1024 samples, 16 kHz, signed 16 bit, mono */
  readonly piece: (pcm: ArrayBuffer) => void;
  /** the microphone was pulled out, or the browser took it away */
  readonly lost: () => void;
}

export interface Microphone {
  readonly rate: number;
  readonly close: () => void;
}

const RATE = 16_000;

/** A browser's own cleaning is made for ears: it cuts into words. Echo is kept out by not listening while speaking. */
const RAW: MediaTrackConstraints = {
  channelCount: 1,
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
};

/**
 * Opens the microphone of this tablet.
 * @throws MicrophoneError which says what forbids it
 */
export async function openMicrophone(handlers: MicrophoneHandlers): Promise<Microphone> {
  if (!isSecureContext) throw new MicrophoneError('page-not-secure');
  if (typeof AudioWorkletNode === 'undefined' || !('mediaDevices' in navigator)) throw new MicrophoneError('too-old');
  const stream = await navigator.mediaDevices.getUserMedia({ audio: RAW }).catch((error: unknown) => {
    throw new MicrophoneError(troubleOf(error));
  });
  const context = new AudioContext({ sampleRate: RATE });
  const close = (): void => {
    for (const track of stream.getTracks()) track.stop();
    void context.close();
  };
  try {
    await context.audioWorklet.addModule(workletUrl);
    // Some browsers cannot bring a microphone to another rate and throw here.
    const source = context.createMediaStreamSource(stream);
    const pieces = new AudioWorkletNode(context, 'microphone-pieces', { numberOfOutputs: 0, channelCount: 1 });
    pieces.port.onmessage = (event: MessageEvent<ArrayBuffer>) => handlers.piece(event.data);
    source.connect(pieces);
    for (const track of stream.getAudioTracks()) track.addEventListener('ended', handlers.lost);
    await context.resume();
  } catch {
    close();
    throw new MicrophoneError('wrong-rate');
  }
  return { rate: context.sampleRate, close };
}

function troubleOf(error: unknown): MicrophoneTrouble {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'forbidden';
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return 'none-found';
  return 'in-use';
}

/** Level of a piece in dB below full scale, -100 for silence; for the meter. */
export function levelOfPiece(pcm: ArrayBuffer): number {
  const samples = new Int16Array(pcm);
  let sum = 0;
  for (const sample of samples) sum += sample * sample;
  const mean = sum / Math.max(1, samples.length) / (32_768 * 32_768);
  return mean === 0 ? -100 : Math.max(-100, 10 * Math.log10(mean * 2));
}
