import { z } from 'zod';
import { PRINTER_DOES, type SimulatorAction } from '#shared/wire/events.ts';

const massText = z.string().min(1).max(40);
/** What the simulated devices may be told to do. */
export const simulatorAction: z.ZodType<SimulatorAction> = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('put-mass'), mass: massText }),
  z.strictObject({ do: z.literal('put-expected') }),
  z.strictObject({ do: z.literal('empty-pan') }),
  z.strictObject({ do: z.literal('drift'), mass: massText }),
  z.strictObject({ do: z.literal('scan'), text: z.string().min(1).max(500) }),
  z.strictObject({ do: z.literal('paper'), state: z.enum(['ok', 'near-end', 'out']) }),
  z.strictObject({ do: z.literal('printer'), does: z.enum(PRINTER_DOES) }),
  z.strictObject({ do: z.enum(['unplug', 'plug']), device: z.enum(['scale', 'scanner', 'printer']) }),
]);
