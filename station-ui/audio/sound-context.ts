/**
 * The page's one way out for sound. Browsers let a page sound only after a touch or a key; until then nothing is kept for
 * later: a sound that comes when its moment is over would be a lie.
 */
let context: AudioContext | null = null;
const watchers = new Set<(blocked: boolean) => void>();

/** The running context, or null where there is no sound, or not yet. */
export function soundContext(): AudioContext | null {
  if (typeof AudioContext === 'undefined') return null;
  context ??= opened();
  return context.state === 'running' ? context : null;
}

/** Whether the browser waits for a touch before it lets this page sound. */
export function soundIsBlocked(): boolean {
  return typeof AudioContext !== 'undefined' && soundContext() === null;
}

/** Calls back with each change of whether sound is blocked. Returns how to stop. */
export function watchSound(changed: (blocked: boolean) => void): () => void {
  watchers.add(changed);
  return () => watchers.delete(changed);
}

function opened(): AudioContext {
  const made = new AudioContext();
  made.addEventListener('statechange', () => {
    for (const changed of watchers) changed(made.state !== 'running');
  });
  const unlock = (): void => {
    if (made.state !== 'running') void made.resume();
  };
  // A tablet counts a touch when the finger is lifted, a mouse when it is pressed.
  for (const gesture of ['pointerdown', 'pointerup', 'keydown', 'click'] as const) {
    addEventListener(gesture, unlock, { capture: true, passive: true });
  }
  return made;
}
