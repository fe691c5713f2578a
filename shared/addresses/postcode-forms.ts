/**
 * How countries write their postcodes: N a digit, A a letter, X either, anything else itself; spaces and hyphens may be
 * left out. The national formats are those of the Universal Postal Union's postal addressing systems; the table was
 * written down from memory. A country that is not here has no postcodes, or none that we know.
 */
const FORMS: Readonly<Record<string, readonly string[]>> = {
  US: ['NNNNN', 'NNNNN-NNNN'],
  GB: ['AN NAA', 'ANN NAA', 'AAN NAA', 'AANN NAA', 'ANA NAA', 'AANA NAA'],
  CA: ['ANA NAN'],
  IE: ['ANN XXXX', 'ANA XXXX'],
  NL: ['NNNN AA'],
  PL: ['NN-NNN'],
  PT: ['NNNN-NNN'],
  JP: ['NNN-NNNN'],
  BR: ['NNNNN-NNN'],
  SE: ['NNN NN'],
  GR: ['NNN NN'],
  CZ: ['NNN NN'],
  SK: ['NNN NN'],
  AD: ['ADNNN'],
  LV: ['LV-NNNN'],
  LT: ['LT-NNNNN'],
  MD: ['MD-NNNN'],
  MT: ['AAA NNNN'],
  AR: ['NNNN', 'ANNNNAAA'],
  IL: ['NNNNNNN', 'NNNNN'],
  CL: ['NNNNNNN'],
  TW: ['NNN', 'NNNNN', 'NNNNNN'],
  VN: ['NNNNN', 'NNNNNN'],
  ...sameFor(['NNN'], 'IS FO MG'),
  ...sameFor(['NNNN'], 'AM AT AU BD BE BG CH CY DK GE GL HU LI LU MK NO NZ PH PY SI TN ZA'),
  ...sameFor(['NNNNN'], 'BA CR DE DO DZ EE EG ES FI FR GT HR ID IT JO KE KR KW LK MA MC ME MM MX MY NP PE'),
  ...sameFor(['NNNNN'], 'PK SM TH TR UA UY VA'),
  ...sameFor(['NNNNN', 'NNNNNN'], 'RS'),
  ...sameFor(['NNNNN', 'NNNNN-NNNN'], 'GU PR SA VI'),
  ...sameFor(['NNNNNN'], 'BY CN CO EC IN KG KZ NG RO RU SG TJ TM UZ'),
};

function sameFor(forms: readonly string[], countries: string): Record<string, readonly string[]> {
  return Object.fromEntries(countries.split(' ').map((country) => [country, forms]));
}

/** Letters that Canada leaves out, and of those the first letter may not be: W and Z beside them. From memory. */
const CANADIAN = /^[ABCEGHJ-NPRSTVXY]\d[ABCEGHJ-NPRSTV-Z]\d[ABCEGHJ-NPRSTV-Z]\d$/;

const bare = (text: string): string => text.toUpperCase().replace(/[\s-]+/g, '');

const SIGNS: Readonly<Record<string, string>> = { N: '\\d', A: '[A-Z]', X: '[A-Z0-9]' };
/** Letters before these belong to the form itself and are no signs. */
const LETTERED = new Set(['AD', 'LV', 'LT', 'MD']);

function patternOf(form: string, country: string): RegExp {
  const lettered = LETTERED.has(country);
  const rest = bare(lettered ? form.slice(2) : form);
  const signs = Array.from(rest, (sign) => SIGNS[sign] ?? sign).join('');
  // Many write the country before its postcode: D-10115, LV-1010.
  return new RegExp(lettered ? `^(?:${country})?${signs}$` : `^(?:${country}|[A-Z](?=\\d))?${signs}$`);
}

const PATTERNS = Object.fromEntries(
  Object.entries(FORMS).map(([country, forms]) => [country, forms.map((form) => patternOf(form, country))]),
);

/** The country's forms where the postcode has none of them; null where it does, or where nobody knows. */
export function formsMissed(postcode: string, country: string): readonly string[] | null {
  const forms = FORMS[country];
  if (forms === undefined) return null;
  const written = bare(postcode);
  const right = PATTERNS[country]?.some((pattern) => pattern.test(written)) === true;
  return right && (country !== 'CA' || CANADIAN.test(written)) ? null : forms;
}
