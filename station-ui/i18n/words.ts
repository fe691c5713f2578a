import type { NumberPadWords } from './number-pad.ts';
import type { Command } from '#shared/run/commands.ts';
import type { DecideBecause, NoticeCode, SetAsideReason, StepName } from '#shared/run/types.ts';
import type { DeviceHealth, DeviceName, DeviceState, BenchView } from '#shared/wire/views.ts';
import type { PRINTER_DOES, AccessRefusal, WireError } from '#shared/wire/events.ts';
import type { CaptureState, HeardOutcome, ListeningMode, VoiceState } from '#shared/wire/voice.ts';
import type { CameraTrouble } from '../camera/camera-trouble.ts';
import type { CameraSeen } from '../camera/scanning.ts';
import type { MicrophoneTrouble } from '../audio/microphone-trouble.ts';
import type { SpeechForm } from '#shared/wire/speech.ts';
import type { SpeechTrouble } from '../audio/speaker.ts';
import type { FitVerdict } from '#shared/fitting/types.ts';
import type { Reading, UncertaintyComponent } from '#shared/weighing/types.ts';
import type { DevicesWords } from './devices-words.ts';
import type { OfficeWords } from './office-words.ts';

export type Values = Readonly<Record<string, string>>;

/** A caution of the safety kind: what to do, and who has the last word. */
export interface CautionWords {
  readonly heading: string;
  readonly text: string;
}

export const CAUTION_IDS = [
  'pockets-lithium',
  'film-bag-children',
  'knife',
  'lifting',
  'lifting-care',
  'must-not-press',
  'soles-apart',
  'buckle-in',
] as const;
export type CautionId = (typeof CAUTION_IDS)[number];

/** Everything the screens say. A language that lacks a string does not compile. */
export interface Words {
  readonly languageName: string;
  readonly commands: Readonly<Record<Command, string>>;
  /** what the main command does here, said under its name */
  readonly mainMeans: Readonly<Record<StepName, string>>;
  readonly steps: Readonly<Record<StepName, string>>;
  readonly notices: Readonly<Record<NoticeCode, (values: Values) => string>>;
  readonly reasons: Readonly<Record<SetAsideReason, string>>;
  readonly cautions: Readonly<Record<CautionId, CautionWords>>;
  readonly devices: Readonly<Record<DeviceName, string>>;
  readonly deviceStates: Readonly<Record<DeviceState, string>>;
  readonly troubles: Readonly<Record<DeviceHealth['trouble'], string>>;
  readonly wireErrors: Readonly<Record<WireError | AccessRefusal, string>>;
  readonly bench: BenchWords;
  readonly labelStop: LabelStopWords;
  readonly numberPad: NumberPadWords;
  readonly camera: CameraWords;
  readonly scale: ScaleWords;
  readonly decide: DecideWords;
  readonly tray: TrayWords;
  readonly voice: VoiceWords;
  readonly speaking: SpeakingWords;
  readonly office: OfficeWords;
  readonly devicesPage: DevicesWords;
}

export interface BenchWords {
  readonly nobody: string;
  readonly order: (id: string) => string;
  readonly parcel: (number: number, of: number) => string;
  readonly pieces: (count: number) => string;
  readonly shipBy: (when: string) => string;
  readonly arriveBy: (day: string) => string;
  readonly late: string;
  readonly today: string;
  readonly nextOrders: string;
  readonly noOrders: string;
  readonly shortOf: Readonly<Record<'low' | 'out', (name: string, left: string) => string>>;
  readonly andMore: (count: number) => string;
  readonly overdue: (parcels: number) => string;
  readonly sack: (carrier: string, at: string) => string;
  readonly sackCount: (count: number, missing: number) => string;
  readonly idle: string;
  readonly idleNobody: string;
  readonly idleHow: string;
  readonly gather: (missing: number, pieces: number) => string;
  readonly gatherAll: string;
  readonly noPlace: string;
  readonly gathered: (gathered: number, due: number) => string;
  readonly marks: Readonly<Record<'waiting' | 'current' | 'done', string>>;
  readonly lookOver: string;
  readonly pieceOf: (index: number, of: number) => string;
  readonly lookFor: readonly string[];
  readonly stepOf: (step: number, of: number) => string;
  readonly foldHere: string;
  readonly endsAs: string;
  readonly foldPicture: (words: string) => string;
  readonly fill: Readonly<Record<'pouch' | 'card' | 'carton' | 'doubled', string>>;
  readonly fillHow: string;
  readonly bags: BagWords;
  readonly doubts: DoubtWords;
  readonly fits: Readonly<Record<FitVerdict, string>>;
  readonly spare: (length: string) => string;
  readonly saves: (amount: string, over: string) => string;
  readonly seal: string;
  readonly sealHow: string;
  /** the same while its slip did not come out */
  readonly sealNoSlip: string;
  readonly slip: Readonly<Record<BenchView['slip'], string>>;
  readonly label: string;
  readonly labelPostcode: string;
  readonly labelWhy: string;
  readonly done: (order: string) => string;
  readonly doneTook: (time: string) => string;
  readonly doneHow: string;
  readonly minutes: (minutes: number, seconds: number) => string;
  readonly buyerNote: string;
  readonly confirming: (command: Command, reason: SetAsideReason | undefined) => string;
  /** the label was not scanned: the packer vouches for its postcode */
  readonly byEye: (postcode: string) => string;
  readonly byEyeHow: string;
  readonly asItIs: string;
  readonly whyAside: string;
  readonly lastScan: string;
  readonly nothingScanned: string;
  readonly sending: (count: number) => string;
  readonly stillSending: string;
  readonly linkLost: string;
  readonly linkLostHow: string;
  /** the page started and there is no server */
  readonly serverAway: string;
  readonly connecting: string;
  readonly unknownBench: string;
  readonly chooseBench: string;
  readonly health: string;
  readonly notKnown: string;
  readonly seam: (at: number, of: number) => string;
  /** names of the parts of the screen, for screen readers */
  readonly seamHere: string;
  readonly orderHere: string;
  readonly commandsHere: string;
  readonly theme: Readonly<Record<'light' | 'dark', string>>;
  readonly switchLanguage: string;
  readonly cautionSource: string;
}

/** A pouch in a pouch, and pieces in piles. */
export interface BagWords {
  readonly how: string;
  readonly heading: string;
  readonly inner: (name: string) => string;
  readonly outer: (name: string) => string;
  readonly piles: (count: number) => string;
}

/** What is not sure about a plan. */
export interface DoubtWords {
  readonly heading: string;
  readonly assumed: (what: readonly ('size' | 'cloth')[], weighed: boolean) => string;
  readonly notProven: (dearer: string, least: string) => string;
  readonly service: (paid: string) => string;
  readonly arriveBy: (day: string) => string;
}

/** A label that must not go on this parcel. */
export interface LabelStopWords {
  readonly wrong: string;
  readonly used: string;
  readonly found: string;
  readonly due: string;
  readonly dueNumber: string;
  readonly how: string;
  readonly howUsed: string;
  readonly otherwise: (back: string, setAside: string) => string;
}

/** The tablet's own camera as a scanner. */
export interface CameraWords {
  readonly name: string;
  readonly starting: string;
  readonly looking: string;
  readonly seen: Readonly<Record<CameraSeen['outcome'], (text: string) => string>>;
  readonly picture: string;
  readonly light: string;
  /** the decoder of turned codes could not be loaded */
  readonly onlyStraight: string;
  readonly counts: (taken: number, notKnown: number, unconfirmed: number) => string;
  readonly troubles: Readonly<Record<CameraTrouble, string>>;
}

export interface ScaleWords {
  readonly name: string;
  readonly stability: Readonly<Record<Reading['stability'], string>>;
  readonly condition: Readonly<Record<Exclude<Reading['condition'], 'ok'>, string>>;
  readonly noReading: string;
  readonly empty: string;
  readonly toCome: (mass: string) => string;
  readonly nextBracket: string;
  readonly lastBracket: string;
  /** the same where there is little room */
  readonly limit: string;
  readonly expected: (low: string, high: string) => string;
  readonly margin: (mass: string) => string;
  readonly paidUpTo: (mass: string, price: string) => string;
  readonly putOn: string;
  readonly takeOff: string;
  readonly holdStill: string;
  readonly reading: string;
  readonly weighHow: string;
  readonly zeroIt: (mass: string) => string;
  /** the same as the main line of the weighing */
  readonly zeroFirst: string;
  readonly picture: (total: string, margin: string, ceiling: string) => string;
}

export interface DecideWords {
  readonly heading: Readonly<Record<DecideBecause, (ceiling: string) => string>>;
  readonly verdictWord: Readonly<Record<'clear' | 'close' | 'over', string>>;
  readonly sum: (reading: string, toCome: string) => string;
  readonly offBy: (mass: string) => string;
  readonly usual: (low: string, high: string) => string;
  readonly nothingMissing: string;
  readonly tooLight: string;
  readonly tooHeavy: string;
  readonly choices: Readonly<
    Record<'weigh-again' | 'zero-scale' | 'make-lighter' | 'pay-next-bracket' | 'next', string>
  >;
  readonly checkPieces: string;
  readonly checkHow: string;
  readonly drifted: (mass: string) => string;
  readonly notDrifted: string;
  readonly lighterBy: (what: string, mass: string) => string;
  readonly nothingLighter: string;
  readonly nextCosts: (price: string, more: string) => string;
  readonly noNext: string;
  readonly needsConfirm: string;
  readonly madeOf: string;
  readonly components: Readonly<Record<UncertaintyComponent['name'], (half: string) => string>>;
  readonly learned: (mass: string) => string;
}

export interface TrayWords {
  readonly title: string;
  readonly close: string;
  readonly mass: string;
  readonly put: string;
  readonly expectedMass: string;
  readonly emptyPan: string;
  readonly drift: string;
  readonly scan: string;
  readonly scanThis: string;
  readonly foot: string;
  readonly paper: string;
  readonly paperStates: Readonly<Record<'ok' | 'near-end' | 'out', string>>;
  readonly printerDoes: Readonly<Record<(typeof PRINTER_DOES)[number], string>>;
  readonly unplug: (device: string) => string;
  readonly plug: (device: string) => string;
  readonly slips: string;
  readonly noSlips: string;
  readonly slipAt: (time: string) => string;
  readonly discarded: (count: number) => string;
  readonly badMass: string;
}

/** How the bench speaks, and why it does not. */
export interface SpeakingWords {
  readonly name: string;
  readonly heading: (packer: string | null) => string;
  readonly on: string;
  readonly turned: Readonly<Record<'on' | 'off', string>>;
  readonly form: string;
  readonly forms: Readonly<Record<SpeechForm, string>>;
  readonly rate: string;
  readonly perMinute: (words: number) => string;
  readonly slower: string;
  readonly faster: string;
  readonly volume: string;
  readonly ofFull: (volume: number) => string;
  readonly quieter: string;
  readonly louder: string;
  readonly trial: string;
  readonly done: string;
  readonly blocked: string;
  readonly troubles: Readonly<Record<SpeechTrouble, string>>;
}

export interface VoiceWords {
  readonly name: string;
  readonly microphone: string;
  readonly turned: Readonly<Record<'on' | 'off', string>>;
  readonly modes: Readonly<Record<ListeningMode, string>>;
  readonly talk: string;
  readonly level: string;
  readonly states: Readonly<Record<VoiceState, string>>;
  readonly heard: (outcome: HeardOutcome, command: string) => string;
  readonly troubles: Readonly<Record<MicrophoneTrouble, string>>;
  /** `said`: the program’s own last words, or empty */
  readonly captureTroubles: (state: CaptureState, said: string) => string;
  readonly counts: (rejected: number, dropped: number, junk: number) => string;
}
