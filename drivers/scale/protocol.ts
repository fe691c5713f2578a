import type { MassUnit } from '#shared/units/mass.ts';
import { continuousDecoder } from './continuous.ts';
import type { ScaleDecoder } from './frames.ts';
import { SMA_COMMANDS, smaDecoder } from './sma.ts';

export type ScaleProtocol = 'continuous' | 'sma';

/** How one kind of scale is spoken to. */
export interface ScaleDialect {
  decoder(): ScaleDecoder;
  /** asks for one weight; null for a scale that sends by itself */
  readonly ask: string | null;
  /** sets the scale to zero; null for one that cannot be told to */
  readonly zero: string | null;
}

export function dialectOf(protocol: ScaleProtocol, unitIfMissing: MassUnit | null): ScaleDialect {
  if (protocol === 'sma') return { decoder: smaDecoder, ask: SMA_COMMANDS.weigh, zero: SMA_COMMANDS.zero };
  // Z is what continuous indicators take for zero: common practice, no source.
  return { decoder: () => continuousDecoder(unitIfMissing), ask: null, zero: 'Z\r\n' };
}
