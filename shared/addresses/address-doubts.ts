import { formsMissed } from './postcode-forms.ts';
import { namesRegions, regionNamed, regionsOf } from './regions.ts';
import type { AddressDoubt } from './types.ts';
import type { Order } from '#shared/planning/types.ts';

type Addressed = Pick<Order, 'address' | 'to'>;

/** Countries whose street lines carry a house number nearly always; common practice, no source. */
const NUMBERED = new Set(['US', 'CA', 'DE', 'AT', 'NL']);
/** Lines that need no number: mail that is fetched. */
const FETCHED = /\b(general delivery|poste restante|postlagernd|lista de correos)\b/i;
const MOST_REGION_WORDS = 4;

/** What looks wrong or is missing in the address of an order; empty where all looks well. */
export function addressDoubts({ address, to }: Addressed): readonly AddressDoubt[] {
  const forms = formsMissed(to.postcode, to.country);
  const doubts: AddressDoubt[] = forms === null ? [] : [{ about: 'postcode-form', found: to.postcode, forms }];
  const lines = address.map((line) => line.trim()).filter((line) => line !== '' && line !== to.country);
  if (lines.length === 0) return [...doubts, { about: 'no-address' }];

  const isTown = (line: string): boolean => squeezed(line).includes(squeezed(to.postcode));
  const at = lines.findLastIndex(isTown);
  const streets = at === -1 ? lines : lines.slice(0, at);
  doubts.push(...streetDoubts(streets, to.country));
  const town = lines[at];
  if (town === undefined) return [...doubts, { about: 'no-town' }];
  return [...doubts, ...townDoubts(withoutPostcode(town, to.postcode), to)];
}

/** What an address is told apart by: changed, it is looked at anew. */
export function addressKey({ address, to }: Addressed): string {
  return JSON.stringify([address, to.postcode, to.country]);
}

function streetDoubts(streets: readonly string[], country: string): readonly AddressDoubt[] {
  const [first] = streets;
  if (first === undefined) return [{ about: 'no-street' }];
  if (!NUMBERED.has(country) || streets.some((line) => /\d/.test(line) || FETCHED.test(line))) return [];
  return [{ about: 'no-number', found: first }];
}

function townDoubts(town: string, { postcode, country }: Order['to']): readonly AddressDoubt[] {
  const words = town.split(/[\s,]+/).filter((word) => word !== '');
  if (words.length === 0) return [{ about: 'no-town' }];
  const { region, rest } = regionAtEnd(words, country);
  if (region === null) return namesRegions(country) ? [{ about: 'no-region' }] : [];
  // A town may be named as its province is: "28013 Madrid".
  const doubts: AddressDoubt[] = rest === 0 && namesRegions(country) ? [{ about: 'no-town' }] : [];
  const lies = regionsOf(postcode, country);
  if (lies.length > 0 && !lies.includes(region) && rest > 0) {
    doubts.push({ about: 'region-elsewhere', region, found: postcode, lies: lies.join(', ') });
  }
  return doubts;
}

/** The longest end of the town line that names a region, and how many words stand before it. */
function regionAtEnd(words: readonly string[], country: string): { readonly region: string | null; rest: number } {
  for (let count = Math.min(MOST_REGION_WORDS, words.length); count > 0; count -= 1) {
    const region = regionNamed(words.slice(-count).join(' '), country);
    if (region !== null) return { region, rest: words.length - count };
  }
  return { region: null, rest: words.length };
}

const squeezed = (text: string): string => text.toUpperCase().replace(/[\s-]+/g, '');

function withoutPostcode(line: string, postcode: string): string {
  const signs = Array.from(squeezed(postcode), (sign) => sign.replace(/[^A-Z0-9]/, ''));
  return line.replace(new RegExp(`(?<![A-Z0-9])${signs.join('[\\s-]*')}(?:-\\d{4})?(?![A-Z0-9])`, 'i'), ' ');
}
