/** Whether the station's computer can make speech. */
export const SPEECH_ENGINE_STATES = ['working', 'not-installed', 'faulty'] as const;
export type SpeechEngineState = (typeof SPEECH_ENGINE_STATES)[number];

/** How long a sentence is: for everybody, or for those who know the work. */
export const SPEECH_FORMS = ['full', 'short'] as const;
export type SpeechForm = (typeof SPEECH_FORMS)[number];

/** How a person is spoken to. */
export interface SpeechManner {
  readonly wordsPerMinute: number;
  /** 10 to 100, of the loudest that the tablet gives */
  readonly volume: number;
  readonly form: SpeechForm;
}

export const QUIETEST = 10;
export const SLOWEST = 110;
export const FASTEST = 290;
export const USUAL_MANNER: SpeechManner = { wordsPerMinute: 170, volume: 80, form: 'full' };

/** How a bench speaks now: to whoever stands there, or not at all. */
export interface SpeechView extends SpeechManner {
  readonly on: boolean;
  readonly engine: SpeechEngineState;
}

/** What a bench's screen may change of it: what is given. */
export interface SpeechChange {
  readonly wordsPerMinute?: number;
  readonly volume?: number;
  readonly form?: SpeechForm;
  readonly on?: boolean;
}
