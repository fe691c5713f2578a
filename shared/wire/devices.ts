import type { DeviceHealth, DeviceName, DeviceState } from './views.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { OwnForm } from '#shared/weighing/own-form.ts';
import type { Reading } from '#shared/weighing/types.ts';

/** One frame that a device sent, as it was understood; the same one again and again is counted. */
export interface FrameLine {
  readonly kind: 'weight' | 'no-weight' | 'tare' | 'refused' | 'text' | 'scan' | 'status' | 'acknowledge' | 'discarded';
  readonly shown: string;
  /** stability, condition or why it was discarded, as a code */
  readonly why: string;
  /** when it came last */
  readonly at: number;
  readonly times: number;
}

/** One device of one bench, for the page where somebody looks why it does not work. */
export interface DeviceRow {
  readonly device: DeviceName;
  readonly health: DeviceHealth;
  /** where it is reached, as the config has it */
  readonly place: string;
  /** what it speaks; null where there is nothing to choose */
  readonly protocol: string | null;
  readonly simulated: boolean;
  /** the config has a real one, which a simulator may stand in for */
  readonly real: boolean;
  /** it hangs on the bench's own screen */
  readonly onScreen: boolean;
  readonly lastHex: string;
  readonly lastText: string;
  readonly lastAt: number | null;
  readonly bytes: number;
  readonly good: number;
  readonly discarded: number;
  readonly connections: number;
  /** what the system said when the link failed last, while the device is lost */
  readonly failure: string | null;
  /** newest first */
  readonly frames: readonly FrameLine[];
}

export interface PrintJobRow {
  readonly id: number;
  readonly order: string | null;
  readonly parcel: number;
  readonly title: string;
  /** characters that could not be printed as they are, parted by spaces */
  readonly replaced: string;
  readonly state: 'queued' | 'sending' | 'printed' | 'failed' | 'unknown';
  readonly why: string;
  readonly madeAt: number;
  readonly endedAt: number | null;
}

export const SCALE_TASK_NAMES = ['zero', 'tare', 'clear-tare', 'next-unit'] as const;
/** What the office can tell a scale to do. */
export type ScaleTaskName = (typeof SCALE_TASK_NAMES)[number];

/** What a scale says of itself when it is asked; not every scale can. */
export type ScaleSelf =
  | { readonly speaks: false }
  | {
      readonly speaks: true;
      readonly about: readonly string[];
      /** null when it has no diagnostics */
      readonly faults: readonly ('ram' | 'eeprom' | 'calibration')[] | null;
      /** what it takes off every weight */
      readonly tare: string | null;
      /** what lies on it, in its finest digits */
      readonly fine: string | null;
    };

/** One trial of a scale with a known mass. */
export interface ReferenceCheckRow {
  readonly at: number;
  readonly reference: Mass;
  readonly reading: Mass;
  readonly unit: MassUnit;
  readonly places: number;
  readonly deviation: Mass;
  readonly allowed: Mass;
  readonly passed: boolean;
}

/** What the next scan at a bench means, while somebody tries the scanner: it does not reach the run. */
export type TestScan =
  | { readonly at: 'off' }
  | { readonly at: 'waiting'; readonly until: number }
  | { readonly at: 'seen'; readonly meaning: ScanMeaning; readonly seenAt: number };

export interface LabelPrinterDesk {
  readonly state: DeviceState;
  readonly trouble: DeviceHealth['trouble'];
  readonly since: number;
  readonly place: string;
  readonly speaks: 'escpos' | 'zpl';
  /** it can be asked how it is */
  readonly answers: boolean;
  readonly simulated: boolean;
  /** what the system said when the link failed last, while it is lost */
  readonly failure: string | null;
  /** the newest labels, from outside and trials */
  readonly jobs: readonly PrintJobRow[];
}

export interface BenchDesk {
  readonly bench: { readonly id: string; readonly name: string };
  readonly devices: readonly DeviceRow[];
  readonly live: Reading | null;
  /** what the empty pan shows when the scale should be zeroed */
  readonly needsZeroing: Mass | null;
  readonly testScan: TestScan;
  readonly jobs: readonly PrintJobRow[];
  /** the printer of labels from outside; null where the bench has none */
  readonly labelPrinter: LabelPrinterDesk | null;
  /** the known mass of this bench; null where the config has none */
  readonly reference: Mass | null;
  /** no trial passed since the day began in the shop */
  readonly checkDue: boolean;
  readonly checks: readonly ReferenceCheckRow[];
  /** what the carrier's corrections of parcels from this bench have taught */
  readonly learned: {
    readonly parcels: number;
    readonly mean: Mass;
    readonly sdGrams: number | null;
    readonly counts: boolean;
  } | null;
  /** a run that weighs now is not to be disturbed */
  readonly weighing: boolean;
}

export interface DevicesView {
  readonly now: number;
  readonly unit: MassUnit;
  readonly places: number;
  readonly benches: readonly BenchDesk[];
}

export const PRINTABLES = [
  'test',
  'command-cards',
  'command-strip',
  'bin-labels',
  'piece-labels',
  'certificate',
] as const;
/** What the office can print at a bench. */
export type Printable = (typeof PRINTABLES)[number];

/** A document as it would come out, drawn from its bytes. */
export interface PrintPreview {
  readonly title: string;
  readonly svg: string;
  readonly bytes: number;
  /** characters that could not be printed as they are, each once */
  readonly replaced: readonly string[];
  /** true once it stands in the queue */
  readonly queued: boolean;
}

/** A print job as it stands on paper, drawn from its bytes. */
export interface JobPaper {
  readonly title: string;
  readonly svg: string;
}

/** A serial port that the finder may listen to. */
export interface PortRow {
  readonly path: string;
  readonly adapter: string;
  /** a bench of this station has it open */
  readonly inUse: boolean;
}

/** The USB HID scales of this computer; `missing` says what is missing where they cannot be read. */
export interface UsbScalesView {
  readonly missing: string | null;
  readonly scales: readonly {
    readonly name: string;
    readonly ids: string;
    /** the system says that it weighs; else it does not tell */
    readonly weighs: boolean;
    /** the lines for devices.yaml */
    readonly yaml: string;
  }[];
}

/** The search for a scale's setting. */
export type ScaleFinding =
  | { readonly at: 'idle' }
  | { readonly at: 'listening'; readonly port: string; readonly baud: number }
  | {
      readonly at: 'ended';
      readonly port: string;
      readonly found: {
        readonly baud: number;
        readonly protocol: 'continuous' | 'sma';
        readonly needsUnit: boolean;
        readonly text: string;
        readonly hex: string;
        /** the last weight in the sample, in words of the scale: "15.9 oz" */
        readonly weight: string;
        /** the lines for devices.yaml */
        readonly yaml: string;
      } | null;
      readonly tried: readonly { readonly baud: number; readonly heard: string; readonly text: string }[];
    };

/** What a described form makes of each pasted line. */
export interface FormTrial {
  readonly lines: readonly {
    readonly line: string;
    readonly good: boolean;
    readonly shown: string;
    readonly why: string;
  }[];
  readonly yaml: string;
}

export interface FormToTry {
  readonly form: OwnForm;
  readonly sample: string;
}

/** What became of an import of masses that the carrier found. */
export interface CorrectionsTaken {
  readonly taken: number;
  readonly refused: readonly { readonly line: number; readonly expected: string; readonly found: string }[];
}

/**
 * HTTP contract of the office's devices page:
 * GET  /api/devices -> DevicesView
 * POST /api/devices/:bench/documents { what, language, ids?, print } -> PrintPreview
 * POST /api/devices/:bench/zero -> { outcome }
 * POST /api/devices/:bench/scale { task: ScaleTaskName } -> { outcome }; GET -> ScaleSelf
 * POST /api/devices/:bench/test-scan -> TestScan: the next scan within half a minute does not reach the run
 * POST /api/devices/:bench/jobs/:id { as: 'printed' | 'again' } -> { ok }
 * POST /api/devices/:bench/jobs/:id/copy { language } -> { ok }: a printed job once more, marked as a copy
 * GET  /api/devices/:bench/jobs/:id/paper -> JobPaper
 * POST /api/devices/:bench/reference-check { language } -> ReferenceCheckRow of the load that lies on the pan
 * POST /api/devices/:bench/simulate SimulatorAction -> { ok }
 * POST /api/devices/:bench/stand-in { device, simulated } -> { ok }: a simulator in a real device's place, or the device back
 * GET  /api/usb-scales -> UsbScalesView
 * GET  /api/ports -> PortRow[]; GET, POST { port } /api/scale-finding -> ScaleFinding
 * POST /api/form-trial FormToTry -> FormTrial
 * POST /api/corrections  body: the file's bytes -> CorrectionsTaken
 */
