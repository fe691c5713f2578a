/** Waits until the condition holds; fails with the words when it does not in time. */
export async function until(condition: () => boolean, words: string, withinMs = 3000): Promise<number> {
  const began = Date.now();
  while (!condition()) {
    if (Date.now() - began > withinMs) throw new Error(`not within ${withinMs} ms: ${words}`);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  return Date.now() - began;
}

export const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

export const ascii = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));
