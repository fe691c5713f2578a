import type { Expected, Heard } from './ear.ts';

/** To the process that listens. `ear` names one microphone. */
export type ToListener =
  | { readonly do: 'expect'; readonly ear: string; readonly expected: Expected }
  | { readonly do: 'sound'; readonly ear: string; readonly pcm: Int16Array }
  | { readonly do: 'reset'; readonly ear: string }
  /** what a whole recording is, among these phrases */
  | { readonly do: 'try'; readonly id: number; readonly phrases: readonly string[]; readonly pcm: Int16Array };

/** From it. Every piece of sound is answered with `taken`, by which the sender knows how far behind it is. */
export type FromListener =
  | { readonly type: 'ready'; readonly model: boolean }
  | { readonly type: 'cannot'; readonly code: 'not-installed' | 'cannot-start'; readonly message: string }
  | { readonly type: 'taken'; readonly ear: string; readonly speaking: boolean }
  | { readonly type: 'tried'; readonly id: number; readonly heard: Heard | null }
  | { readonly type: 'heard'; readonly ear: string; readonly heard: Heard };
