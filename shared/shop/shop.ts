import type { KeepSettings } from './keep.ts';
import type { ScaleProtocolName } from '#shared/weighing/scale-protocols.ts';
import type { Wardrobe } from '#shared/garments/types.ts';
import type { Recipe } from '#shared/folding/types.ts';
import type { PeopleRules } from '#shared/people/rules.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import type { BackupSettings } from './backups.ts';
import type { LabelSettings } from '#shared/labels/settings.ts';
import type { ProofSettings } from '#shared/proof/types.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import type { Destination } from '#shared/rating/types.ts';
import type { ShipmentSettings } from '#shared/shipments/fields.ts';
import type { StockRules, Supply } from '#shared/supplies/types.ts';
import type { Collection } from '#shared/hand-over/collections.ts';
import type { OwnForm } from '#shared/weighing/own-form.ts';
import type { Accuracy, Addition, ReferenceMass } from '#shared/weighing/types.ts';
import type { Command } from '#shared/run/commands.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import type { ListeningMode } from '#shared/wire/voice.ts';
import type { SpeechManner } from '#shared/wire/speech.ts';
import type { Language, Localised } from '#shared/words/language.ts';

/** The whole shop as its config files say it, checked and linked. Immutable; a reload makes a new one. */
export interface Shop {
  readonly name: string;
  readonly currency: string;
  /** IANA time zone, such as America/Chicago */
  readonly timeZone: string;
  readonly language: Language;
  readonly units: { readonly mass: MassUnit; readonly massPlaces: number; readonly length: LengthUnit };
  readonly from: Destination;
  readonly address: readonly string[];
  /** printed at the end of the slip, in each language */
  readonly slip: { readonly thanks: Localised; readonly returns: Localised };
  /** what an hour of work costs, and what repacking costs in seconds and material */
  readonly labour: { readonly perHour: Money; readonly repackSeconds: number };
  readonly collections: readonly Collection[];
  readonly wardrobe: Wardrobe;
  readonly recipes: ReadonlyMap<string, Recipe>;
  readonly containers: ReadonlyMap<string, Container>;
  readonly wraps: ReadonlyMap<string, Wrap>;
  /** containers that the shelf has run out of, by id */
  readonly outOfStock?: readonly string[];
  /** what is kept on the shelf and counted; absent where nothing is */
  readonly supplies?: readonly Supply[];
  readonly stockRules?: StockRules;
  readonly preferences?: ShopPreferences;
  /** the file of shipments; its fields under their own names where this is absent */
  readonly shipments?: ShipmentSettings;
  /** where labels are asked for; absent where they are made from the file alone */
  readonly labels?: LabelSettings;
  /** how often the shop is backed up by itself; as `BACKUP_DEFAULTS` where nothing is said, null where it is not */
  readonly backups?: BackupSettings | null;
  /** how long buyers' data are kept after an order was packed or cancelled; for ever where this is absent */
  readonly privacy?: { readonly buyersDays: number };
  /** whether other computers of the local network reach the station, and under which names; this computer alone where this is absent */
  readonly network?: { readonly open: boolean; readonly names?: readonly string[] };
  /** see KEEP_DEFAULTS for what it does not say */
  readonly keep?: Partial<KeepSettings>;
  /** photos of what is packed; none where this is absent */
  readonly proof?: ProofSettings;
  readonly rates: RateBook;
  /** put on after the weighing */
  readonly additions: readonly Addition[];
  /** what cannot be taken back and yet needs no `confirm` here where it is pressed or scanned */
  readonly unasked?: readonly Command[];
  /** whether the benches' screens are kept from going dark; they are where nothing is said */
  readonly keepScreenAwake?: boolean;
  readonly staff: readonly StaffMember[];
  /** how people are guided, trained and cared for; the defaults when absent */
  readonly people?: PeopleRules;
  readonly benches: readonly BenchConfig[];
  /** header names of an import, by field, any of which may head the column */
  readonly importAliases: ImportAliases;
  readonly importFormats: ImportFormats;
}

/** What the shop does whatever is cheapest. */
export interface ShopPreferences {
  /** pieces worth this or more are wrapped in one of these, by id */
  readonly wrapAbove?: { readonly value: Money; readonly wraps: readonly string[] };
  /** what holds a piece worth this or more goes into no single film pouch, but into one pouch in another */
  readonly doubleBagAbove?: Money;
  /** whether the service that the buyer paid for, or the day that was promised, must be kept or is kept where it can be */
  readonly promise?: 'must' | 'prefer';
}

export interface StaffMember {
  readonly id: string;
  readonly name: string;
  /** code on the badge */
  readonly badge: string;
  readonly language: Language;
  readonly role: 'packer' | 'supervisor' | 'owner';
  /** how this person is spoken to until they choose otherwise at a bench */
  readonly speech?: Partial<SpeechManner>;
}

export interface ImportAliases {
  readonly pieces: Readonly<Record<string, readonly string[]>>;
  readonly orders: Readonly<Record<string, readonly string[]>>;
}

/** How an import writes what can be written in more than one way. */
export interface ImportFormats {
  /** how a day is written, such as MM/DD/YYYY, tried in turn; ISO days are always taken */
  readonly days: readonly string[];
  /** the time of a ship-by day that has none, "16:30" */
  readonly shipByTime: string;
  /** which mark makes decimals where both readings are possible: "1,234" */
  readonly decimalMark: 'point' | 'comma';
  /** whose files are taken by themselves; `incoming` in the data folder where none is named */
  readonly watchedFolder?: string;
}

/** How bytes reach a device. `simulated` starts the device's simulator and speaks to it over a local socket. */
export type TransportConfig =
  | { readonly kind: 'simulated' }
  | { readonly kind: 'tcp'; readonly host: string; readonly port: number }
  | { readonly kind: 'serial'; readonly path: string; readonly baud: number }
  /** by the adapter that the device hangs on, whatever name its port has today */
  | { readonly kind: 'serial-adapter'; readonly adapter: AdapterIdentity; readonly baud: number }
  /** a character device that is read and written as it is: a USB printer, a raw HID scale */
  | { readonly kind: 'device-file'; readonly path: string };

/** A scale may also be a USB HID device: of this computer, or of the bench's own screen, which passes its reports on. */
export type ScaleTransportConfig =
  TransportConfig | { readonly kind: 'hid'; readonly device: AdapterIdentity } | { readonly kind: 'hid-on-screen' };

/** Which USB adapter a device hangs on. Every id that is given must agree. */
export interface AdapterIdentity {
  readonly serialNumber?: string;
  readonly vendorId?: string;
  readonly productId?: string;
}

export interface BenchConfig {
  readonly id: string;
  readonly name: string;
  readonly scale: {
    readonly transport: ScaleTransportConfig;
    readonly protocol: ScaleProtocolName | OwnForm;
    /** unit of frames that name none; without it such a frame is no weight */
    readonly unit?: MassUnit;
    readonly division: Mass;
    readonly capacity: Mass;
    readonly accuracy: Accuracy;
    /** how much the zero may have moved since the last zeroing, half-width */
    readonly drift: Mass;
    /** the known mass that the scale is tried with every day */
    readonly reference?: ReferenceMass;
  };
  readonly scanner: {
    readonly transport: TransportConfig;
    /** text that the scanner was set to put before and after every code; a scan without it is discarded */
    readonly prefix?: string;
    readonly suffix?: string;
  } | null;
  readonly printer: {
    readonly transport: TransportConfig;
    readonly paper: 58 | 80;
    readonly dotsPerLine: number;
    readonly columns: number;
    readonly cutter: boolean;
    /** `none`: a printer that answers nothing, of which nobody knows whether it printed */
    readonly status?: 'none';
  };
  /** what labels that come from outside are printed on; without it they are shown on the screen */
  readonly labelPrinter?: LabelPrinterConfig;
  /** a program that prints what it is given on its input, PDF or PNG; run without a shell */
  readonly labelProgram?: { readonly program: string; readonly arguments: readonly string[] };
  readonly footSwitchKeys: FootSwitch;
  /** without it, the screen's own microphone, always listening once it is switched on */
  readonly voice?: BenchVoiceConfig;
}

/** Keys by their code (KeyboardEvent.code) that the pedals of a bench send. */
export interface FootSwitch {
  /** press whatever the main command is */
  readonly main: readonly string[];
  /** have a command of their own */
  readonly commands: Readonly<Record<string, Command>>;
}

export interface LabelPrinterConfig {
  readonly transport: TransportConfig;
  readonly speaks: 'escpos' | 'zpl';
  /** of a line, for pictures; an ESC/POS printer's */
  readonly dotsPerLine: number;
  /** `none`: it answers nothing, and nobody knows whether it printed. A ZPL printer is never asked */
  readonly status?: 'none';
}

/** How a bench hears. */
export interface BenchVoiceConfig {
  readonly microphone: MicrophoneConfig;
  readonly listening: ListeningMode;
  /** how long commands are listened for after the wake phrase and after each command */
  readonly wakeSeconds?: number;
  /** key codes that are held to talk, such as a second foot switch */
  readonly talkKeys?: readonly string[];
}

export type MicrophoneConfig =
  /** the microphone of the tablet, through the browser */
  | { readonly kind: 'screen' }
  /** plugged into the server's computer, by its ALSA name */
  | { readonly kind: 'alsa'; readonly device: string }
  /** any program that writes raw sound to its output: 16 kHz, mono, signed 16 bit, little endian */
  | { readonly kind: 'program'; readonly program: string; readonly arguments: readonly string[] };
