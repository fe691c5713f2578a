/** Longer than any name, address or note that fits on a slip. */
const LONGEST = 1000;

/** What a spreadsheet shows where a formula failed (English and German) or a column was too narrow. */
const FAILED = /^#(?:N\/?A|NV|REF!|BEZUG!|VALUE!|WERT!|NAME\?|DIV\/0!|NULL!|NUM!|ZAHL!|#+)$/i;

/** A long number that a spreadsheet rounded: its last digits are gone. */
const ROUNDED = /^\d(?:[.,]\d+)?E\+\d+$/i;

/** A formula where its value was meant: "=B2*1.2", "=SUM(B2:B9)"; a text such as "=)" is none. */
const FORMULA = /^=\s*[+-]?(?:'|"|\$?[A-Z]{1,3}\$?\d|[A-Z][A-Z.\d]*\(|\d|\()/i;

/** Printable ASCII that begins with neither = nor ' and ends with no blank: most cells, and nothing to do. */
const PLAIN = /^[!-&(-<>-~](?:[ -~]*[!-~])?$/;

/**
 * A cell as it was meant: without blanks around it, without control characters and halves of characters, and without what spreadsheets put
 * around a text that must not become a number, ="02134" or '02134. Line breaks stay.
 */
export function cellText(raw: string): string {
  if (PLAIN.test(raw)) return raw;
  const trimmed = raw.trim();
  const held = /^="(.*)"$/s.exec(trimmed)?.[1] ?? (/^'[\d=+@-]/.test(trimmed) ? trimmed.slice(1) : trimmed);
  return held
    .normalize('NFC')
    .replace(/\r\n?/g, '\n')
    .replace(/[^\P{Cc}\n\t]/gu, '')
    .replace(/\p{Cs}/gu, '\u{fffd}')
    .trim();
}

/** What should be in the cell instead, when no field could take what is there. */
export function spoiltCell(text: string): string | null {
  if (FAILED.test(text)) return 'a value, not the sign of a formula that failed or of a column that was too narrow';
  if (FORMULA.test(text)) return 'a value, not a formula; save the sheet with its values';
  if (ROUNDED.test(text)) return 'all digits: a spreadsheet has rounded this one; format the column as text';
  if (text.length > LONGEST) return `at most ${String(LONGEST)} characters`;
  return null;
}

/** For one line: line breaks and runs of blanks become one blank. */
export function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ');
}
