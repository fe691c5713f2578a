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
