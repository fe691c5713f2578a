import { plainWords } from './plain-words.ts';

const LETTERS = Array.from('ABCDEFGHIJKLMNOPQRSTUVWXYZ');
const SPOKEN = ['en', 'es', 'de', 'fr'];
const ALSO: Readonly<Record<string, string>> = { usa: 'US', unitedstatesofamerica: 'US', uk: 'GB', greatbritain: 'GB' };

/** Regions that only test software: their names are no country's. */
const PSEUDO: ReadonlySet<string> = new Set(['XA', 'XB']);

let byName: ReadonlyMap<string, string> | null = null;

function index(): ReadonlyMap<string, string> {
  if (byName !== null) return byName;
  const found = new Map(Object.entries(ALSO));
  // A region that was renamed (DD) has a name too; its locale turns it into the one that replaced it.
  const codes = LETTERS.flatMap((first) => LETTERS.map((second) => first + second)).filter(
    (code) => new Intl.Locale(`und-${code}`).region === code,
  );
  // XA to XZ: left by ISO 3166-1 to whoever needs a code.
  for (const second of LETTERS) found.set(`x${second.toLowerCase()}`, `X${second}`);
  for (const language of SPOKEN) {
    const names = new Intl.DisplayNames(language, { type: 'region', fallback: 'none' });
    for (const code of codes) {
      const name = PSEUDO.has(code) ? undefined : names.of(code);
      if (name === undefined) continue;
      if (!found.has(plainWords(name))) found.set(plainWords(name), code);
      found.set(code.toLowerCase(), code);
    }
  }
  byName = found;
  return found;
}

/** The two-letter code (ISO 3166-1) of a country given by code or by its English, Spanish, German or French name. */
export function countryCode(text: string): string | undefined {
  return index().get(plainWords(text));
}
