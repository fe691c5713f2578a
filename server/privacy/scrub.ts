/** Stands where a buyer's own data stood. */
export const TAKEN_OUT = '—';
/** Of a postcode so much stays that the zone of a price can be worked out anew; it is no single address any more. */
const KEPT_OF_POSTCODE = 3;
/** Shorter ones are found in texts that have nothing to do with the buyer. */
const SHORTEST_SOUGHT = 4;

/** What tells who a buyer is, as it stands in orders, parcels and inputs. */
export interface Identity {
  /** names, lines of addresses, notes, numbers of labels */
  readonly texts: readonly string[];
  readonly postcodes: readonly string[];
  /** the name by which files of the watched folder that were taken in are removed, too */
  readonly inFiles?: string;
}

export function coarse(postcode: string): string {
  return postcode.replace(/[^a-z0-9]/gi, '').slice(0, KEPT_OF_POSTCODE);
}

/** A value of JSON without what tells who a buyer is; whatever else it holds stays as it is. */
export function scrubbed(value: unknown, identity: Identity): unknown {
  if (typeof value === 'string') return scrubbedText(value, identity);
  if (Array.isArray(value)) return value.map((each) => scrubbed(each, identity));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, each]) => [key, scrubbed(each, identity)] as const);
  const { buyer, address, ...others } = Object.fromEntries(entries);
  const isOrder = 'buyer' in value && 'address' in value && Array.isArray(value.address);
  if (!isOrder) return Object.fromEntries(entries);
  // Whatever the lines are, and however short: an order keeps none of them.
  delete others['note'];
  return { ...others, buyer: buyer === undefined ? '' : TAKEN_OUT, address: address === undefined ? [] : [] };
}

function scrubbedText(text: string, { texts, postcodes }: Identity): string {
  if (postcodes.includes(text)) return coarse(text);
  let told = text;
  for (const sought of texts) {
    if (sought.length >= SHORTEST_SOUGHT) told = told.replaceAll(sought, TAKEN_OUT);
    else if (told === sought) told = TAKEN_OUT;
  }
  for (const postcode of postcodes)
    if (postcode.length > SHORTEST_SOUGHT) told = told.replaceAll(postcode, coarse(postcode));
  return told;
}
