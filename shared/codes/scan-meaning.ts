import { gs1Holds, s10Holds } from './check-digits.ts';
import { FNC1, parseElementString, shipToPostcode } from './gs1.ts';
import { gtin14 } from './gtin.ts';
import { parseOurCode } from './our-codes.ts';
import type { KnownCodes, ScanMeaning } from './types.ts';

/** "]C1" and such, which many scanners put before the text to name the symbol (ISO/IEC 15424). */
const SYMBOLOGY = /^\][A-Za-z][0-9A-Za-z]/;

/**
 * What a scanned text means to this shop: our own codes, then what the shop knows, then labels. A text that is damaged or
 * fails its check digit is never a piece, even where the shop has such a SKU: the number that was printed is another one.
 */
export function scanMeaning(text: string, known: KnownCodes): ScanMeaning {
  const bare = text.replace(SYMBOLOGY, '').replace(/^ +| +$/g, '');
  if (isDamaged(bare)) return { means: 'unknown', text, why: 'half-read' };
  if (failsCheckDigit(bare)) return { means: 'unknown', text, why: 'bad-check-digit' };
  const plain = bare.includes(FNC1) ? null : (fromOurCodes(text, bare, known) ?? fromShop(text, bare, known));
  return plain ?? fromLabel(text, bare, known) ?? { means: 'unknown', text, why: 'not-known' };
}

/** Control characters (but FNC1) and replacement characters come from a read that went wrong. */
function isDamaged(bare: string): boolean {
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  return bare === '' || /[\x00-\x1c\x1e\x1f\x7f-\x9f\ufffd]/.test(bare);
}

/** Numbers whose form alone says that they carry a check digit. */
function failsCheckDigit(bare: string): boolean {
  if (/^(\d{12,14}|\d{22})$/.test(bare)) return !gs1Holds(bare);
  return /^[A-Z]{2}\d{9}[A-Z]{2}$/i.test(bare) && !s10Holds(bare.toUpperCase());
}

function fromOurCodes(text: string, bare: string, known: KnownCodes): ScanMeaning | null {
  const code = parseOurCode(bare);
  if (code === null) return /^BF[CBOH]-/i.test(bare) ? { means: 'unknown', text, why: 'half-read' } : null;
  if (code.kind === 'command') return { means: 'command', text, command: code.command };
  if (code.kind === 'sack') {
    return known.isCarrier?.(code.carrier) === true
      ? { means: 'sack', text, carrier: code.carrier }
      : { means: 'unknown', text, why: 'not-known' };
  }
  if (code.kind === 'container') {
    if (known.isContainer(code.id)) return { means: 'container', text, container: code.id };
  } else {
    const order = [code.id, code.id.toUpperCase(), code.id.toLowerCase()].find((id) => known.isOrder(id));
    if (order !== undefined) return { means: 'order', text, order };
  }
  return { means: 'unknown', text, why: 'not-known' };
}

function fromShop(text: string, bare: string, known: KnownCodes): ScanMeaning | null {
  const staff = known.staffByBadge(bare);
  if (staff !== null) return { means: 'staff', text, staff };
  if (known.isOrder(bare)) return { means: 'order', text, order: bare };
  if (known.isContainer(bare)) return { means: 'container', text, container: bare };
  if (known.isSku(bare)) return { means: 'piece', text, sku: bare };
  const goods = gtin14(bare);
  const sku = goods === null ? undefined : skuOfGoods(goods, known);
  return sku === undefined ? null : { means: 'piece', text, sku };
}

/** The shop may keep a number on goods in any of its lengths. */
function skuOfGoods(goods: string, known: KnownCodes): string | undefined {
  const forms = [0, 1, 2, 6].filter((zeros) => /^0*$/.test(goods.slice(0, zeros))).map((zeros) => goods.slice(zeros));
  return forms.find((form) => known.isSku(form));
}

function fromLabel(text: string, bare: string, known: KnownCodes): ScanMeaning | null {
  const number = bare.toUpperCase();
  if (s10Holds(number)) return { means: 'label', text, number, postcode: null };
  const routed = routedNumber(bare);
  if (routed !== null) {
    return gs1Holds(routed.number)
      ? { means: 'label', text, ...routed }
      : { means: 'unknown', text, why: 'bad-check-digit' };
  }
  // Only a separator, a bracket or the symbol's own flag says for sure that this is an element string.
  const marked = bare.includes(FNC1) || bare.startsWith('(') || /^\](C1|d2|e0|Q3)/.test(text);
  return marked ? fromElements(text, bare, known) : fromPlainNumber(text, number);
}

/** (420) with its postcode in front of a parcel number of 20 to 34 digits that begins with 9, with or without a separator. */
function routedNumber(bare: string): { readonly number: string; readonly postcode: string } | null {
  // eslint-disable-next-line no-control-regex -- FNC1 arrives as the group separator
  const separated = /^\x1d?(?:\(420\)|420)([0-9A-Z]{3,12})(?:\x1d|(?=\())\(?(9\d)\)?(\d{18,32})$/.exec(bare);
  if (separated !== null) return { postcode: separated[1] ?? '', number: `${separated[2] ?? ''}${separated[3] ?? ''}` };
  const joined = /^420(\d{5}(?:\d{4})?)(9\d{21})$/.exec(bare);
  return joined === null ? null : { postcode: joined[1] ?? '', number: joined[2] ?? '' };
}

function fromElements(text: string, bare: string, known: KnownCodes): ScanMeaning {
  const parsed = parseElementString(bare);
  if (!parsed.ok) return { means: 'unknown', text, why: parsed.why === 'bad-check-digit' ? parsed.why : 'half-read' };
  const dataOf = (ai: string): string | undefined => parsed.elements.find((element) => element.ai === ai)?.data;
  const goods = dataOf('01');
  if (goods !== undefined) {
    const sku = skuOfGoods(goods, known);
    return sku === undefined ? { means: 'unknown', text, why: 'not-known' } : { means: 'piece', text, sku };
  }
  const number = dataOf('00') ?? dataOf('21');
  if (number === undefined) return { means: 'unknown', text, why: 'half-read' };
  return { means: 'label', text, number: number.toUpperCase(), postcode: shipToPostcode(parsed.elements) };
}

function fromPlainNumber(text: string, number: string): ScanMeaning | null {
  // A code of goods that the shop does not know is no parcel number.
  if (/^\d{12,14}$/.test(number)) return null;
  return /^[0-9A-Z]{10,34}$/.test(number) ? { means: 'label', text, number, postcode: null } : null;
}
