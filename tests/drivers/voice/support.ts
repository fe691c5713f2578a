import type { Heard } from '#drivers/voice/ear.ts';
import type { EarHandle, Listener, ListenerState } from '#drivers/voice/listener.ts';

/** A microphone at a real listening process that remembers what was heard. */
export function openEar(listener: Listener, name = 'bench-1') {
  const heard: Heard[] = [];
  const states: ListenerState[] = [];
  const ear = listener.open(name, { onHeard: (each) => heard.push(each), onState: (state) => states.push(state) });
  return { ear, heard, states };
}

export async function until(condition: () => boolean, what: string, ms = 15_000): Promise<void> {
  const end = Date.now() + ms;
  while (!condition()) {
    if (Date.now() > end) throw new Error(`waited in vain for ${what}`);
    await new Promise((soon) => setTimeout(soon, 10));
  }
}

/** Sends sound in pieces of 64 ms, no faster than the process takes them. */
export async function send(ear: EarHandle, pcm: Int16Array, piece = 1024): Promise<void> {
  for (let at = 0; at < pcm.length; at += piece) {
    const part = pcm.slice(at, at + piece);
    const end = Date.now() + 10_000;
    while (!ear.sound(part)) {
      if (Date.now() > end) throw new Error('the process takes no sound');
      await new Promise((soon) => setTimeout(soon, 5));
    }
  }
}
