import { RatingError } from './rating-error.ts';

/** Postcodes whose beginning lies between two beginnings of equal length, both counted in: 550 to 567. */
export interface PostcodeRange {
  readonly first: string;
  readonly last: string;
}

/** Upper case without spaces; of a United States postcode the five digits before the hyphen. */
export function normalPostcode(postcode: string, country: string): string {
  const bare = postcode.toUpperCase().replace(/\s+/g, '');
  return country === 'US' ? bare.replace(/^(\d{5})-?\d{4}$/, '$1') : bare;
}

/**
 * "558", "550-567" or "SW1A".
 * @throws RatingError bad-postcodes
 */
export function parsePostcodeRange(text: string): PostcodeRange {
  const bare = text.toUpperCase().replace(/\s+/g, '');
  const [, first = '', last = first] = /^([0-9A-Z]+)(?:(?:-|–|\.\.)([0-9A-Z]+))?$/.exec(bare) ?? [];
  if (first === '' || first.length !== last.length || last < first) {
    throw new RatingError(
      'bad-postcodes',
      `postcodes: expected a beginning such as 558 or two of equal length such as 550-567, found "${text}"`,
    );
  }
  return { first, last };
}

/** Whether a postcode in its normal form begins within the range. */
export function inRange(postcode: string, range: PostcodeRange): boolean {
  const start = postcode.slice(0, range.first.length);
  return start.length === range.first.length && start >= range.first && start <= range.last;
}
