import { plainWords } from './plain-words.ts';

const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const SPOKEN = ['en', 'es', 'de', 'fr'];
const ALSO: Readonly<Record<string, string>> = { usa: 'US', unitedstatesofamerica: 'US', uk: 'GB', greatbritain: 'GB' };

let byName: Map<string, string> | null = null;

function index(): Map<string, string> {
  if (byName !== null) return byName;
  byName = new Map(Object.entries(ALSO));
  const codes = LETTERS.flatMap((first) => LETTERS.map((second) => first + second));
  for (const language of SPOKEN) {
    const names = new Intl.DisplayNames(language, { type: 'region', fallback: 'none' });
    for (const code of codes) {
      const name = names.of(code);
      if (name !== undefined && !byName.has(plainWords(name))) byName.set(plainWords(name), code);
    }
  }
  for (const code of codes) {
    if (new Intl.DisplayNames('en', { type: 'region', fallback: 'none' }).of(code) !== undefined) {
      byName.set(code.toLowerCase(), code);
    }
  }
  return byName;
}

/** The two-letter code (ISO 3166-1) of a country given by code or by its English, Spanish, German or French name. */
export function countryCode(text: string): string | undefined {
  return index().get(plainWords(text));
}
