/** A cell as a spreadsheet names it: column letters and row number, both counted from the first. */
export function cellName(row: number, column: number): string {
  let letters = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return `${letters}${String(row + 1)}`;
}

/** Text without the blanks that spreadsheets put around and inside numbers. */
export function tidy(text: string): string {
  return text.replace(/[\s\u00a0\u2007\u202f]+/g, ' ').trim();
}
