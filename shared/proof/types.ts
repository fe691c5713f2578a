import type { Money } from '#shared/units/money.ts';

/** The shop's rule for photos of what was packed. */
export interface ProofSettings {
  /** of no order, of every one, or of those whose pieces are together worth this or more */
  readonly photos: 'off' | 'always' | { readonly from: Money };
  /** whole days that a photo is kept */
  readonly keepDays: number;
}

export const DEFAULT_KEEP_DAYS = 120;

/** The pieces in their container, still open; the parcel closed and labelled. */
export const PHOTO_SUBJECTS = ['packed', 'closed'] as const;
export type PhotoSubject = (typeof PHOTO_SUBJECTS)[number];

/** The photo that is due at a bench. */
export interface PhotoDue {
  readonly run: string;
  /** from 1 */
  readonly parcel: number;
  readonly what: PhotoSubject;
}

/** Why there is no photo; whatever it is, the run goes on. */
export const PHOTO_TROUBLES = [
  /** browsers give no camera to a page that came over http:// from another computer */
  'page-not-secure',
  'forbidden',
  'none-found',
  'in-use',
  'unplugged',
  'too-old',
  /** it was opened and no picture came */
  'no-picture',
  /** the picture could not be made small enough, or not at all */
  'not-encoded',
  /** photos that wait for a lost link fill this tablet */
  'tablet-full',
  /** the station could not read what came */
  'not-a-photo',
] as const;
export type PhotoTrouble = (typeof PHOTO_TROUBLES)[number];

/** The largest that a screen sends, in bytes, and the largest that is taken. */
export const PHOTO_SENT_BYTES = 300_000;
export const PHOTO_TAKEN_BYTES = 400_000;
