/** A parcel, a day or a card that cannot be priced at all. `code` is for programs, `message` for people. */
export class RatingError extends Error {
  override readonly name = 'RatingError';
  readonly code: 'bad-size' | 'bad-mass' | 'bad-day' | 'bad-volume' | 'bad-postcodes' | 'bad-book';

  constructor(code: RatingError['code'], message: string) {
    super(message);
    this.code = code;
  }
}
