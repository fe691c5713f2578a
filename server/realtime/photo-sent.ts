import { z } from 'zod';
import { PHOTO_SUBJECTS, PHOTO_TROUBLES } from '#shared/proof/types.ts';
import type { PhotoSent } from '#shared/wire/proof.ts';

/** A tablet that was away for a month has a clock, or a story, that is not believed. */
const LONGEST_AGO_MS = 31 * 86_400_000;

const due = {
  id: z.string().min(8).max(100),
  run: z.string().min(1).max(100),
  parcel: z.int().min(1).max(1000),
  what: z.enum(PHOTO_SUBJECTS),
  ago: z
    .number()
    .min(0)
    .transform((ago) => Math.min(Math.round(ago), LONGEST_AGO_MS)),
};

/** A photo as it comes over the socket; how large it may be is the socket's and the station's to say. */
export const photoSent: z.ZodType<PhotoSent> = z.union([
  z.strictObject({ ...due, jpeg: z.instanceof(Uint8Array) }),
  z.strictObject({ ...due, missed: z.enum(PHOTO_TROUBLES) }),
]);
