import anyAscii from 'any-ascii';
import { isMap, isScalar, parseDocument } from 'yaml';
import type { NewContainer } from '#shared/wire/first-run.ts';

/** `Film pouch 9 × 12` as an id: letters, digits and hyphens. */
export function idFor(name: string, taken: ReadonlySet<string>, usual: string): string {
  const plain = anyAscii(name)
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40)
    .replace(/-+$/, '');
  const base = plain === '' ? usual : plain;
  for (let count = 1; ; count += 1) {
    const tried = count === 1 ? base : `${base}-${String(count)}`;
    if (!taken.has(tried)) return tried;
  }
}

/** The closing of a lip, and how much one parcel's packaging differs from the next: common practice, no source. */
const CLOSING = '10 mm';
const SECONDS = { pouch: 12, card: 15, carton: 45 } as const;

/** containers.yaml with only these containers of those that are there, and new ones. Masses' spread is 4 % of the mass. */
export function withCupboard(text: string, keep: ReadonlySet<string>, added: readonly NewContainer[]): string {
  const document = parseDocument(text);
  const all = document.get('containers');
  const ids = new Set<string>();
  if (isMap(all)) {
    for (const { key } of [...all.items]) {
      const id = String(isScalar(key) ? key.value : key);
      if (keep.has(id)) ids.add(id);
      else all.delete(key);
    }
  }
  for (const each of added) {
    const id = idFor(each.name, ids, each.type);
    ids.add(id);
    const sides = {
      width: each.width,
      length: each.length,
      ...(each.type === 'carton' ? { depth: each.depth } : {}),
    };
    document.setIn(
      ['containers', id],
      document.createNode({
        name: { en: each.name, es: each.name },
        type: each.type,
        inside: sides,
        outside: sides,
        ...(each.type === 'carton' ? {} : { closing: CLOSING }),
        mass: each.mass,
        massSd: spreadOf(each.mass),
        cost: each.cost,
        seconds: SECONDS[each.type],
        cautions: each.type === 'pouch' ? ['film-bag-children'] : [],
      }),
    );
  }
  return document.toString({ lineWidth: 0 });
}

function spreadOf(mass: string): string {
  const [, number = '', unit = ''] = /^\s*([\d.]+)\s*([a-z]+)\s*$/i.exec(mass) ?? [];
  return number === '' ? mass : `${(Number(number) * 0.04).toFixed(2)} ${unit}`;
}
