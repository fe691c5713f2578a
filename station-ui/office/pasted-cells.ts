import type { ZoneChoice } from '#shared/wire/rates.ts';

/** Cells as a spreadsheet would paste them, so that one that was mended here can be read again. */
export function asPasted(cells: readonly (readonly string[])[]): string {
  const safe = (cell: string): string => (/["\t\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
  return cells
    .map((row, index) => {
      const line = row.map(safe).join('\t');
      // A table of one column would lose its tabs, and with them what parts its cells.
      return index === 0 && !line.includes('\t') ? `${line}\t` : line;
    })
    .join('\n');
}

/** Bands as lines of a distance and a zone; a line with a zone alone has no limit. */
export function bandsOf(text: string): Extract<ZoneChoice, { readonly by: 'distance' }>['bands'] {
  return text
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => {
      const [, distance, zone] = /^(\d+(?:[.,]\d+)?)[\s:;]+(.+)$/.exec(line) ?? [];
      if (distance === undefined || zone === undefined) return { upTo: null, zone: line };
      return { upTo: Number(distance.replace(',', '.')), zone: zone.trim() };
    });
}
