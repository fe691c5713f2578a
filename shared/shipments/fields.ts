/**
 * What a row of the shipments file can hold, one row for each parcel that has been weighed and has not left. Amounts are
 * plain decimals with a point; a list of the parcel's kinds is parted by "; ".
 */
export const SHIPMENT_FIELDS = [
  /** names the parcel and nothing else, the same in every file: order, run and number */
  'key',
  'order',
  /** which parcel of the order, from 1, and how many there are */
  'parcel',
  'parcels',
  /** weighed: its label is still to come; labelled: it waits for its carrier */
  'state',
  'buyer',
  'street',
  'postcode',
  /** ISO 3166-1, two letters */
  'country',
  'carrier',
  'service',
  'container',
  /** outside of the filled container in `sizeUnit`, longest first */
  'length',
  'width',
  'height',
  'sizeUnit',
  /** finished, with what comes on after the weighing, in `massUnit` */
  'mass',
  'massUnit',
  /** what is paid for it */
  'postage',
  /** the number on its label, once it has one */
  'label',
  /** for the customs: what is in it, what that is worth, where it was made (ISO 3166-1), and its tariff number */
  'contents',
  'value',
  'currency',
  /** of the pieces alone, in `massUnit` */
  'netMass',
  'origin',
  'hsCode',
  /** what the customs must be told of which piece and nobody has said; empty where it stays in its country */
  'missing',
] as const;

export type ShipmentField = (typeof SHIPMENT_FIELDS)[number];

/** Tariff numbers of the Harmonized System: six digits, and what a country adds. */
export const TARIFF_NUMBER = /^\d{4,6}(\.?\d{2}){0,3}$/;

/** Which columns the file has, by header, and what the customs are told. */
export interface ShipmentSettings {
  /** header -> field, in the order of the columns */
  readonly columns: Readonly<Record<string, ShipmentField>>;
  /** country of origin of pieces that name none, ISO 3166-1; without it such a piece lacks one */
  readonly origin?: string;
  /** tariff numbers of the Harmonized System, by kind */
  readonly hsCodes: Readonly<Record<string, string>>;
}

/** The fields under their own names. */
export const PLAIN_SHIPMENTS: ShipmentSettings = {
  columns: Object.fromEntries(SHIPMENT_FIELDS.map((field) => [field, field])),
  hsCodes: {},
};
