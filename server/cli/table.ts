import Table from 'cli-table3';

/** A table for people: plain lines, no colours, so that it can be read, copied and piped. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const drawn = new Table({ head: [...head], style: { head: [], border: [], compact: true } });
  for (const row of rows) drawn.push([...row]);
  return drawn.toString();
}
