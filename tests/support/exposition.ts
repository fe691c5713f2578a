/**
 * A parser of the Prometheus text exposition format, written from its published description ("Exposition formats", version
 * 0.0.4): lines of HELP and TYPE, samples with labels in double quotes where \\, \" and \n are escaped, a value that is a
 * float or NaN, +Inf, -Inf, and an optional time.
 */
export interface Sample {
  readonly name: string;
  readonly labels: Readonly<Record<string, string>>;
  readonly value: number;
}

export interface Exposition {
  readonly types: ReadonlyMap<string, string>;
  readonly samples: readonly Sample[];
}

const NAME = /^[a-zA-Z_:][a-zA-Z0-9_:]*$/;
const TYPES = new Set(['counter', 'gauge', 'histogram', 'summary', 'untyped']);

/** @throws Error that names the line which is not in the format */
export function parseExposition(text: string): Exposition {
  if (!text.endsWith('\n')) throw new Error('the last line must end with a line feed');
  const types = new Map<string, string>();
  const helped = new Set<string>();
  const samples: Sample[] = [];
  for (const line of text.split('\n')) {
    if (line === '') continue;
    if (line.startsWith('# HELP ')) {
      const [name = ''] = line.slice(7).split(' ');
      if (!NAME.test(name) || helped.has(name)) throw new Error(`HELP: ${line}`);
      helped.add(name);
    } else if (line.startsWith('# TYPE ')) {
      const [name = '', type = ''] = line.slice(7).split(' ');
      if (!NAME.test(name) || types.has(name) || !TYPES.has(type)) throw new Error(`TYPE: ${line}`);
      if (samples.some((sample) => familyOf(sample.name, types) === name))
        throw new Error(`TYPE after samples: ${line}`);
      types.set(name, type);
    } else if (!line.startsWith('#')) samples.push(sampleOf(line));
  }
  const seen = new Set<string>();
  for (const { name, labels } of samples) {
    const key = `${name} ${JSON.stringify(Object.entries(labels).sort())}`;
    if (seen.has(key)) throw new Error(`twice: ${key}`);
    seen.add(key);
  }
  return { types, samples };
}

export function familyOf(name: string, types: ReadonlyMap<string, string>): string {
  if (types.has(name)) return name;
  return name.replace(/_(bucket|sum|count)$/, '');
}

function sampleOf(line: string): Sample {
  const [, name = '', rest = ''] = /^([a-zA-Z_:][a-zA-Z0-9_:]*)(.*)$/s.exec(line) ?? [];
  if (name === '') throw new Error(`no name: ${line}`);
  const labels: Record<string, string> = {};
  let at = 0;
  if (rest.startsWith('{')) {
    at = 1;
    while (rest[at] !== '}') {
      const [, label = '', quoted = ''] =
        /^([a-zA-Z_][a-zA-Z0-9_]*)="((?:[^"\\\n]|\\[\\"n])*)"/.exec(rest.slice(at)) ?? [];
      if (label === '' || label in labels) throw new Error(`labels: ${line}`);
      labels[label] = quoted.replaceAll(/\\([\\"n])/g, (_, escaped: string) => (escaped === 'n' ? '\n' : escaped));
      at += label.length + quoted.length + 3;
      if (rest[at] === ',') at += 1;
      else if (rest[at] !== '}') throw new Error(`labels: ${line}`);
    }
    at += 1;
  }
  const [, number = ''] = /^ +(NaN|[+-]Inf|[+-]?[0-9.]+(?:e[+-]?[0-9]+)?)(?: +-?[0-9]+)?$/i.exec(rest.slice(at)) ?? [];
  if (number === '') throw new Error(`value: ${line}`);
  const value = /inf/i.test(number) ? (number.startsWith('-') ? -Infinity : Infinity) : Number(number);
  return { name, labels, value };
}
