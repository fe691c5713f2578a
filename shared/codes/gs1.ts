import { gs1Holds } from './check-digits.ts';

/** FNC1 as a scanner transmits it between elements: the group separator. */
export const FNC1 = '\x1d';

export interface Element {
  /** application identifier, such as "420" */
  readonly ai: string;
  readonly data: string;
}

export type ElementString =
  | { readonly ok: true; readonly elements: readonly Element[] }
  | { readonly ok: false; readonly why: 'not-gs1' | 'half-read' | 'bad-check-digit' };

interface Format {
  readonly pattern: RegExp;
  /** set where the length is predefined, so that no separator follows */
  readonly fixed?: number;
  /** the last digit is a modulo 10 check digit */
  readonly checked?: true;
  /** the check digit stands inside, after the country */
  readonly startsWithCountry?: true;
}

/** The application identifiers that parcels and goods carry here (GS1 General Specifications, section 3). */
const FORMATS: Readonly<Record<string, Format>> = {
  '00': { pattern: /^\d{18}$/, fixed: 18, checked: true },
  '01': { pattern: /^\d{14}$/, fixed: 14, checked: true },
  '21': { pattern: /^[!"%-?A-Z_a-z]{1,20}$/ },
  '420': { pattern: /^[!"%-?A-Z_a-z]{1,20}$/ },
  '421': { pattern: /^\d{3}[!"%-?A-Z_a-z]{1,9}$/, startsWithCountry: true },
};
const IDENTIFIERS = Object.keys(FORMATS);

/**
 * Takes an element string apart, written with FNC1 separators or with identifiers in parentheses.
 * @returns the elements; or `not-gs1` when it begins with no identifier known here, `half-read` when an element breaks off
 *   or holds what it may not, `bad-check-digit` when an element's check digit does not hold
 */
export function parseElementString(text: string): ElementString {
  if (text.startsWith('(')) return parseBracketed(text);
  let rest = text.startsWith(FNC1) ? text.slice(1) : text;
  const elements: Element[] = [];
  while (rest !== '') {
    const ai = IDENTIFIERS.find((known) => rest.startsWith(known));
    if (ai === undefined) return { ok: false, why: elements.length === 0 ? 'not-gs1' : 'half-read' };
    const format = FORMATS[ai];
    const end = format?.fixed === undefined ? rest.indexOf(FNC1) : ai.length + format.fixed;
    const data = rest.slice(ai.length, end === -1 ? undefined : end);
    const problem = checkElement(ai, data);
    if (problem !== null) return { ok: false, why: problem };
    elements.push({ ai, data });
    rest = end === -1 ? '' : rest.slice(end);
    if (rest.startsWith(FNC1)) rest = rest.slice(1);
  }
  return elements.length === 0 ? { ok: false, why: 'not-gs1' } : { ok: true, elements };
}

function parseBracketed(text: string): ElementString {
  const parts = [...text.matchAll(/\((\d{2,4})\)([^()]*)/g)];
  if (parts.map((part) => part[0]).join('') !== text) return { ok: false, why: 'half-read' };
  const elements: Element[] = [];
  for (const [, ai = '', data = ''] of parts) {
    if (FORMATS[ai] === undefined) return { ok: false, why: 'not-gs1' };
    const problem = checkElement(ai, data);
    if (problem !== null) return { ok: false, why: problem };
    elements.push({ ai, data });
  }
  return { ok: true, elements };
}

function checkElement(ai: string, data: string): 'half-read' | 'bad-check-digit' | null {
  const format = FORMATS[ai];
  if (format?.pattern.test(data) !== true) return 'half-read';
  return format.checked === true && !gs1Holds(data) ? 'bad-check-digit' : null;
}

/** The ship-to postcode of a label: (420), or (421) without its three-digit country. */
export function shipToPostcode(elements: readonly Element[]): string | null {
  const own = elements.find((element) => element.ai === '420');
  if (own !== undefined) return own.data;
  return elements.find((element) => element.ai === '421')?.data.slice(3) ?? null;
}
