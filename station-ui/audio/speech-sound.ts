import { earconEnds } from './earcons.ts';
import { soundContext } from './sound-context.ts';
import { SpeechFailure, type Playing, type Utterance } from './speaker.ts';

const PATIENCE_MS = 6000;
const DECODED_RATE = 22_050;

/** The sentence as the server makes it, decoded. @throws SpeechFailure */
export async function fetchSpeech({ text, language, wordsPerMinute }: Utterance): Promise<AudioBuffer> {
  if (typeof OfflineAudioContext === 'undefined') throw new SpeechFailure('too-old');
  const query = new URLSearchParams({ text, language, rate: String(wordsPerMinute) });
  let response: Response;
  try {
    response = await fetch(`/api/speech?${query.toString()}`, { signal: AbortSignal.timeout(PATIENCE_MS) });
  } catch {
    throw new SpeechFailure('no-answer');
  }
  if (!response.ok) throw new SpeechFailure(await whyNot(response));
  // Decoding needs no permission to sound: what is fetched before the first touch can be played after it.
  return new OfflineAudioContext(1, 1, DECODED_RATE).decodeAudioData(await response.arrayBuffer());
}

async function whyNot(response: Response): Promise<SpeechFailure['code']> {
  const body = (await response.json().catch(() => null)) as { error?: unknown } | null;
  if (body?.error === 'speech-not-installed') return 'not-installed';
  return body?.error === 'speech-busy' ? 'no-answer' : 'faulty';
}

/** A breath between the earcon and the sentence. */
const BREATH_SECONDS = 0.08;

/** Plays it once the earcon that came with it is over; null where the browser lets nothing sound yet. */
export function playSpeech(buffer: AudioBuffer, volume: number): Playing | null {
  const context = soundContext();
  if (context === null) return null;
  const source = context.createBufferSource();
  const gain = context.createGain();
  gain.gain.value = volume;
  source.buffer = buffer;
  source.connect(gain).connect(context.destination);
  const from = Math.max(context.currentTime, earconEnds() + BREATH_SECONDS);
  source.start(from);
  // What the context has rendered is heard later: by a loudspeaker in the tablet soon, over the air a good deal.
  const latencyMs = Math.min(1000, Math.max(0, context.outputLatency || context.baseLatency || 0) * 1000);
  const ended = new Promise<void>((done) => {
    source.addEventListener('ended', () => setTimeout(done, latencyMs), { once: true });
  });
  const milliseconds = (from - context.currentTime + buffer.duration) * 1000 + latencyMs;
  return { milliseconds, ended, stop: () => source.stop() };
}
