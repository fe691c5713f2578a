import type { Command } from '#shared/run/commands.ts';
import type { Enrolment, Take } from '#shared/voice/enrolment.ts';

/** Whether commands can be understood on this computer at all. */
export interface RecogniserView {
  readonly recogniser: 'idle' | 'starting' | 'working' | 'not-installed' | 'restarting' | 'faulty';
}

/** What the office's page of voices shows. */
export interface VoicesView {
  readonly staff: readonly { readonly id: string; readonly name: string }[];
  readonly benches: readonly { readonly id: string; readonly name: string }[];
  readonly phrases: readonly { readonly command: Command; readonly first: string; readonly second: string }[];
  readonly enrolled: readonly EnrolledView[];
  /** how many takes lie in the recorded set */
  readonly takes: number;
  /** where, on the server's computer */
  readonly folder: string;
}

export interface EnrolledView {
  readonly staff: string;
  readonly bench: string;
  readonly at: number;
  readonly enrolment: Enrolment;
}

/** What a recorded take was heard as. `why`: what was in the way; null where the phrase was heard. */
export interface TakeAnswer extends Take {
  readonly file: string;
  readonly why: string | null;
}
