/** Breaks text into lines of at most `columns` characters, at spaces where it can; a longer word is cut. */
export function wrap(text: string, columns: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').filter((each) => each !== '')) {
    let rest = word;
    if (line !== '' && line.length + 1 + rest.length <= columns) {
      line += ` ${rest}`;
      continue;
    }
    if (line !== '') lines.push(line);
    while (rest.length > columns) {
      lines.push(rest.slice(0, columns));
      rest = rest.slice(columns);
    }
    line = rest;
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}
