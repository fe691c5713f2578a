import { z } from 'zod';
import { FASTEST, QUIETEST, SLOWEST, SPEECH_FORMS } from '#shared/wire/speech.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { id } from './quantities.ts';

/** staff.yaml */
export const staffFile = z.strictObject({
  /** by id */
  staff: z
    .record(
      id,
      z.strictObject({
        name: z.string().min(1),
        badge: z
          .string()
          .regex(/^[\x21-\x7e]{3,32}$/, 'expected 3 to 32 letters, digits or signs without spaces, as a barcode has'),
        language: z.enum(LANGUAGES),
        role: z.enum(['packer', 'supervisor', 'owner']),
        speech: z
          .strictObject({
            wordsPerMinute: z.int().min(SLOWEST).max(FASTEST).exactOptional(),
            volume: z.int().min(QUIETEST).max(100).exactOptional(),
            form: z.enum(SPEECH_FORMS).exactOptional(),
          })
          .exactOptional(),
      }),
    )
    .refine((all) => Object.keys(all).length > 0, 'expected at least one'),
});
