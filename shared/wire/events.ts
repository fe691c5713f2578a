import type { PhotoSent } from './proof.ts';
import type { SpeechChange } from './speech.ts';
import type { BenchView, DeviceHealth, LiveScale } from './views.ts';
import type { EarAsk, SoundAck, SoundPiece, VoiceView } from './voice.ts';
import type { Command } from '#shared/run/commands.ts';
import type { SetAsideReason } from '#shared/run/types.ts';
import type { Language } from '#shared/words/language.ts';

/** Error codes that can cross the wire; the words are the screen's. */
export const WIRE_ERRORS = ['bad-request', 'unknown-bench', 'not-simulated', 'store-failed', 'busy'] as const;
export type WireError = (typeof WIRE_ERRORS)[number];

/** Why somebody may not do what was asked; the words are the screen's. */
export const ACCESS_REFUSALS = [
  /** this device was never paired with the shop, or is no longer */
  'not-paired',
  'signed-out',
  /** it is somebody else's to do */
  'not-allowed',
] as const;
export type AccessRefusal = (typeof ACCESS_REFUSALS)[number];

export type Ack =
  | { readonly ok: true; readonly seq: number }
  | { readonly ok: false; readonly error: WireError | AccessRefusal; readonly message: string };

/** Whether the open work knows a code that a camera read; nothing is done about it. */
export type CodeAnswer =
  | { readonly ok: true; readonly known: boolean }
  | { readonly ok: false; readonly error: WireError | AccessRefusal; readonly message: string };

/** An input from a bench screen. `id` is unique: the same input delivered twice acts once. */
export type BenchInput =
  | {
      readonly id: string;
      readonly type: 'command';
      readonly command: Command;
      readonly by: 'touch' | 'key' | 'voice';
      readonly reason?: SetAsideReason;
      /** the order that was on the screen: when it went on at another bench meanwhile, this counts for nothing */
      readonly order?: string;
    }
  | {
      readonly id: string;
      readonly type: 'scan';
      readonly text: string;
      /** how the same keys read on a US keyboard, where the tablet's layout made another text of them */
      readonly otherwise?: string;
      readonly by: 'scan' | 'key' | 'camera';
      /** how long before it was sent it was read, in milliseconds: it may have waited for a lost link */
      readonly ago?: number;
    }
  | {
      readonly id: string;
      readonly type: 'digits';
      readonly digits: string;
      readonly by: 'touch' | 'key';
      /** as of a command */
      readonly order?: string;
    }
  | { readonly id: string; readonly type: 'language'; readonly language: Language }
  /** an option of practice was touched */
  | { readonly id: string; readonly type: 'choose'; readonly option: string };

/** What can be done to a printer beside its paper and its cable. */
export const PRINTER_DOES = ['open-cover', 'shut-cover', 'restart'] as const;

/** What the simulated-devices tray may do; refused where the device is real. */
export type SimulatorAction =
  | { readonly do: 'put-mass'; readonly mass: string }
  | { readonly do: 'put-expected' }
  | { readonly do: 'empty-pan' }
  | { readonly do: 'drift'; readonly mass: string }
  | { readonly do: 'scan'; readonly text: string }
  | { readonly do: 'paper'; readonly state: 'ok' | 'near-end' | 'out' }
  | { readonly do: 'printer'; readonly does: (typeof PRINTER_DOES)[number] }
  | { readonly do: 'unplug' | 'plug'; readonly device: 'scale' | 'scanner' | 'printer' };

/** Codes offered in the tray: what a hand could scan at this moment. */
export interface SimulatorOffers {
  readonly codes: readonly { readonly label: string; readonly text: string }[];
  /** newest first: slips as SVG rendered from the printed bytes */
  readonly slips: readonly { readonly at: number; readonly svg: string }[];
}

/** socket.io events from server to screen. Namespace `/bench`, room by bench id given at connection in `auth.bench`. */
export interface ServerToBench {
  view: (view: BenchView) => void;
  scale: (live: LiveScale) => void;
  devices: (health: readonly DeviceHealth[]) => void;
  simulator: (offers: SimulatorOffers) => void;
  voice: (view: VoiceView) => void;
  /** how loud the microphone at the server is, in dB below full scale */
  level: (db: number) => void;
  /** whether somebody is signed in at this screen; before it is open nothing of the shop is sent */
  door: (open: boolean) => void;
  /** what the bench is called, for who may connect and has not signed in yet */
  called: (name: string) => void;
  /** which build of the bench's page the server has, so that an older page is renewed */
  pages: (version: string) => void;
  /** where the shop's other servers have their pages, as http://host:port: the screen goes there when this one is gone */
  servers: (addresses: readonly string[]) => void;
}

/** socket.io events from screen to server; inputs are acknowledged after they are stored. */
export interface BenchToServer {
  input: (input: BenchInput, ack: (ack: Ack) => void) => void;
  simulate: (action: SimulatorAction, ack: (ack: Ack) => void) => void;
  /** a camera reads whatever lies about: would the open work know this text? */
  code: (text: string, ack: (answer: CodeAnswer) => void) => void;
  /**
   * this screen's microphone is on or off, what was begun is cut off, this screen speaks, for so many milliseconds, or is
   * silent again
   */
  ear: (ask: EarAsk, milliseconds?: number) => void;
  /** whoever stands here wants to be spoken to otherwise */
  speech: (change: SpeechChange, ack: (ack: Ack) => void) => void;
  /** a photo that was due, or why there is none; acknowledged once it is kept */
  photo: (photo: PhotoSent, ack: (ack: Ack) => void) => void;
  sound: (piece: SoundPiece, ack: (ack: SoundAck) => void) => void;
}
