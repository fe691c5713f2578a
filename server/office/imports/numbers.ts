export type DecimalMark = 'point' | 'comma';

/** The usual case, which can be read in one way only. */
const PLAIN = /^\d{1,12}(?:\.(?:\d\d?|\d{4,8}))?$/;

/**
 * A number as people of several countries write it, as plain decimal text: "1.234,56" and "1,234.56" both become
 * "1234.56". Spaces and apostrophes group thousands. Where one mark could be either ("1,234") `decimalMark` decides.
 * @returns null when the text is no number
 */
export function plainDecimal(text: string, decimalMark: DecimalMark): string | null {
  if (PLAIN.test(text)) return text;
  const compact = text
    .trim()
    .replace(/[\s\u00a0\u202f'’]/g, '')
    .replace(/^\u2212/, '-');
  if (!/^[+-]?\d*(?:[.,]\d*)*$/.test(compact) || !/\d/.test(compact)) return null;
  const points = compact.split('.').length - 1;
  const commas = compact.split(',').length - 1;
  if (points > 0 && commas > 0) {
    const decimal = compact.lastIndexOf(',') > compact.lastIndexOf('.') ? ',' : '.';
    return ungroup(compact, decimal);
  }
  if (points + commas === 0) return compact;
  const mark = points > 0 ? '.' : ',';
  const other = mark === '.' ? ',' : '.';
  if (points + commas > 1) return ungroup(compact, other);
  const couldGroup = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(compact);
  const isDecimal = !couldGroup || (mark === ',') === (decimalMark === 'comma');
  return ungroup(compact, isDecimal ? mark : other);
}

/** Takes the grouping marks out; null when they do not stand at every third digit. */
function ungroup(compact: string, decimal: '.' | ','): string | null {
  const at = compact.lastIndexOf(decimal);
  const whole = at === -1 ? compact : compact.slice(0, at);
  const fraction = at === -1 ? null : compact.slice(at + 1);
  if (fraction !== null && !/^\d*$/.test(fraction)) return null;
  const grouped = /[.,]/.test(whole);
  if (grouped && !/^[+-]?\d{1,3}(?:[.,]\d{3})+$/.test(whole)) return null;
  const digits = whole.replace(/[.,]/g, '');
  return fraction === null || fraction === '' ? digits : `${digits}.${fraction}`;
}
