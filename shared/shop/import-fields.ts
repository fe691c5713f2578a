/** Fields that a column of a pieces file can fill. */
export const PIECE_FIELDS = [
  'sku',
  'title',
  'kind',
  'size',
  'cloth',
  'colour',
  'mass',
  'width',
  'length',
  'sleeveLength',
  'inseam',
  'height',
  'value',
  'place',
  'origin',
  'hsCode',
] as const;
export type PieceField = (typeof PIECE_FIELDS)[number];

/** Fields that a column of an orders file can fill. */
export const ORDER_FIELDS = [
  'order',
  'skus',
  'count',
  'buyer',
  'street',
  'street2',
  'city',
  'region',
  'postcode',
  'country',
  'shipBy',
  'arriveBy',
  'service',
  'paidPostage',
  'note',
] as const;
export type OrderField = (typeof ORDER_FIELDS)[number];
