import type { Command } from '#shared/run/commands.ts';

/** How a microphone is used. */
export const LISTENING_MODES = ['always', 'push-to-talk', 'after-wake-phrase'] as const;
export type ListeningMode = (typeof LISTENING_MODES)[number];

/** Why what was heard is no command, or that it is one. */
export const HEARD_OUTCOMES = [
  'taken',
  /** digits of the number that is being entered */
  'digits',
  /** the run said no; its notice tells why */
  'refused',
  /** the run moved on while it was said */
  'too-late',
  /** heard, but not surely enough for this command: a second time makes it sure */
  'say-again',
  /** the same, heard again sooner than anybody says it */
  'too-soon',
  'no-phrase',
  'near-miss',
  'too-long',
  'too-short',
  'too-quiet',
  'clipped',
  /** the wake phrase: commands are listened for now */
  'woken',
] as const;
export type HeardOutcome = (typeof HEARD_OUTCOMES)[number];

export const VOICE_STATES = [
  /** no screen of this bench has its microphone on */
  'off',
  'starting',
  'listening',
  /** only the wake phrase is listened for */
  'asleep',
  /** push-to-talk is not held */
  'not-held',
  /** the station itself speaks */
  'muted',
  /** the microphone at the server gives no sound; `microphone` says why */
  'no-microphone',
  /** the recogniser is not on this computer */
  'not-installed',
  /** it died and is started again */
  'restarting',
  'faulty',
  /** commands are not understood in the bench's language */
  'language-not-heard',
] as const;
export type VoiceState = (typeof VOICE_STATES)[number];

/** What a bench hears; sent on every change. */
export interface VoiceView {
  readonly state: VoiceState;
  readonly mode: ListeningMode;
  readonly microphone: MicrophoneView;
  /** key codes (KeyboardEvent.code) that are held to talk */
  readonly talkKeys: readonly string[];
  readonly heard: {
    /** grows with everything that was heard */
    readonly count: number;
    readonly outcome: HeardOutcome;
    /** null where no phrase was made out: chatter is told of, never quoted */
    readonly command: Command | null;
  } | null;
  readonly counts: VoiceCounts;
}

/** States of the program that gives the sound of a microphone at the server. */
export const CAPTURE_STATES = [
  'off',
  'starting',
  'working',
  /** it runs and gives no sound */
  'no-sound',
  /** it gives nothing but zeros: switched off at the microphone or in the mixer */
  'only-zeros',
  /** it gives sound faster or slower than 16,000 samples a second: words would be other words */
  'wrong-rate',
  /** it ended: no such device, in use, pulled out; it is tried again */
  'failed',
  /** the program is not on this computer; it is tried again, seldom */
  'no-program',
] as const;
export type CaptureState = (typeof CAPTURE_STATES)[number];

/** Where a bench's microphone is. */
export type MicrophoneView =
  | { readonly at: 'screen' }
  /** `said`: the capture program's own last words, '' when it had none */
  | { readonly at: 'server'; readonly state: CaptureState; readonly said: string };

/** What a screen asks of its bench's ear. */
export const EAR_ASKS = [
  'on',
  'off',
  /** the link came back: what was begun is not continued */
  'cut',
  'speaking',
  'silent',
  /** push-to-talk is held, or let go */
  'hold',
  'let-go',
  ...LISTENING_MODES,
] as const;
export type EarAsk = (typeof EAR_ASKS)[number];

export interface VoiceCounts {
  readonly taken: number;
  readonly rejected: number;
  /** pieces of sound lost on the way or left out because the recogniser was behind */
  readonly dropped: number;
  /** pieces that were no sound of the agreed form */
  readonly junk: number;
}

/** A piece of sound from a screen's microphone. */
export interface SoundPiece {
  /** one more than the piece before; a gap is counted */
  readonly n: number;
  /** samples a second: 16,000 and nothing else */
  readonly rate: number;
  /** signed 16 bit, little endian, mono; at most half a second */
  readonly pcm: ArrayBuffer;
}

export type SoundAck = { readonly ok: true } | { readonly ok: false; readonly why: SoundRefused };
export const SOUND_REFUSALS = ['not-on', 'junk', 'wrong-rate', 'too-fast', 'behind'] as const;
export type SoundRefused = (typeof SOUND_REFUSALS)[number];
