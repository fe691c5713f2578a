import { SpeechError } from './speech-error.ts';

/** Sound in a WAVE file as a pipe delivers it: the sizes in its head are guesses and are written anew. */
const HEAD = 44;

export interface WaveForm {
  readonly rate: number;
  readonly seconds: number;
}

/**
 * A synthesiser that writes to a pipe cannot know how long the sound will be when it writes the head. Answers the same
 * sound with the sizes that it has.
 * @throws SpeechError failed where the bytes are no 16 bit mono sound
 */
export function wholeWave(bytes: Buffer): Buffer {
  const { rate } = formOf(bytes);
  const data = bytes.subarray(HEAD, HEAD + Math.floor((bytes.length - HEAD) / 2) * 2);
  if (data.length === 0 || rate < 8000) throw new SpeechError('failed', 'the synthesiser gave no sound');
  const whole = Buffer.concat([bytes.subarray(0, HEAD), data]);
  whole.writeUInt32LE(HEAD - 8 + data.length, 4);
  whole.writeUInt32LE(data.length, 40);
  return whole;
}

/** @throws SpeechError failed */
export function formOf(bytes: Buffer): WaveForm {
  const isWave =
    bytes.length >= HEAD &&
    bytes.toString('latin1', 0, 4) === 'RIFF' &&
    bytes.toString('latin1', 8, 16) === 'WAVEfmt ' &&
    bytes.readUInt16LE(20) === 1 &&
    bytes.readUInt16LE(22) === 1 &&
    bytes.readUInt16LE(34) === 16 &&
    bytes.toString('latin1', 36, 40) === 'data';
  if (!isWave) throw new SpeechError('failed', 'the synthesiser gave no 16 bit mono WAVE sound');
  const rate = bytes.readUInt32LE(24);
  return { rate, seconds: (bytes.length - HEAD) / 2 / rate };
}

/** Whether the sizes in the head are the sound's own: a file that was cut short says more than it has. */
export function isWholeWave(bytes: Buffer): boolean {
  try {
    formOf(bytes);
  } catch {
    return false;
  }
  return bytes.readUInt32LE(40) === bytes.length - HEAD && bytes.length > HEAD;
}
