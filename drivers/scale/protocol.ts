import type { MassUnit } from '#shared/units/mass.ts';
import type { ScaleProtocolName } from '#shared/weighing/scale-protocols.ts';
import { ZERO_SCALE_USAGE } from '#shared/wire/screen-scale.ts';
import { SCALE_TASK_NAMES, type ScaleTaskName } from '#shared/wire/devices.ts';
import { continuousDecoder } from './continuous.ts';
import type { ScaleDecoder } from './frames.ts';
import { hidDecoder } from './hid-report.ts';
import { ownDecoder, type OwnForm } from './own-form.ts';
import { SMA_COMMANDS, smaDecoder } from './sma.ts';

/** What a scale speaks: a kind by name, or a form that its owner described. */
export type ScaleProtocol = ScaleProtocolName | OwnForm;

/** What a scale can be told to do. */
export const SCALE_TASKS = SCALE_TASK_NAMES;
export type ScaleTask = ScaleTaskName;

/** How one kind of scale is spoken to. */
export interface ScaleDialect {
  decoder(): ScaleDecoder;
  /** asks for one weight; null for a scale that sends by itself */
  readonly ask: string | null;
  /** bytes to send, or a control that the device itself describes */
  readonly tasks: Partial<Readonly<Record<ScaleTask, string | { readonly usage: number }>>>;
  /** asks who the scale is and how it is; answers are text and diagnostics frames */
  readonly questions: {
    readonly about: string;
    readonly aboutNext: string;
    readonly diagnostics: string;
    readonly tellTare: string;
    readonly weighFineStill: string;
  } | null;
}

/** One row for each protocol of `shared/weighing/scale-protocols.ts`. */
const DIALECTS: Readonly<Record<ScaleProtocolName, (unitIfMissing: MassUnit | null) => ScaleDialect>> = {
  sma: () => ({
    decoder: smaDecoder,
    ask: SMA_COMMANDS.weigh,
    tasks: {
      zero: SMA_COMMANDS.zero,
      tare: SMA_COMMANDS.tare,
      'clear-tare': SMA_COMMANDS.clearTare,
      'next-unit': SMA_COMMANDS.nextUnit,
    },
    questions: SMA_COMMANDS,
  }),
  // Z and T are what continuous indicators take for zero and tare: common practice, no source.
  continuous: (unitIfMissing) => ({
    decoder: () => continuousDecoder(unitIfMissing),
    ask: null,
    tasks: { zero: 'Z\r\n', tare: 'T\r\n' },
    questions: null,
  }),
  hid: () => ({ decoder: hidDecoder, ask: null, tasks: { zero: { usage: ZERO_SCALE_USAGE } }, questions: null }),
};

/** @throws DriverError bad-pattern, for a described form */
export function dialectOf(protocol: ScaleProtocol, unitIfMissing: MassUnit | null): ScaleDialect {
  if (typeof protocol === 'string') return DIALECTS[protocol](unitIfMissing);
  // A pattern that cannot work is refused when the driver is made, not when the first byte comes.
  ownDecoder(protocol);
  return {
    decoder: () => ownDecoder(protocol),
    ask: protocol.ask ?? null,
    tasks: protocol.zero === undefined ? {} : { zero: protocol.zero },
    questions: null,
  };
}
