import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';
import { ratesEn } from '#station-ui/i18n/rates-en.ts';
import { ratesEs } from '#station-ui/i18n/rates-es.ts';

const FOLDER = resolve(import.meta.dirname, '../../station-ui/i18n');

/** What is counted on the screens, as it is called where there are several. */
const SEVERAL = [
  'parcels|orders|pieces|prices|rows|labels|sacks|photos|days|hours|minutes|seconds|zones|weeks|files|lines|records',
  'people|benches|containers|folds|steps|codes|times|takes|characters|digits|services|columns|entries|changes|mistakes',
  'paquetes|pedidos|prendas|precios|filas|etiquetas|sacas|fotos|días|horas|minutos|segundos|zonas|semanas|archivos',
  'líneas|registros|personas|mesas|embalajes|pliegues|pasos|códigos|veces|grabaciones|caracteres|cifras|servicios',
  'columnas|entradas|cambios|errores|nuevos|cambiados|rechazados|trozos',
].join('|');
/** A one, and no part of another number or of a share, before several things. */
const ONE_OF_SEVERAL = new RegExp(`(?<![\\d.,-])1 (?!%)(?:${SEVERAL})(?![\\p{L}])`, 'u');

/** What is never one: the pace of a voice, and the days of demand that a shop looks back on. */
const NEVER_ONE = /\.(?:perMinute|how)$/;

/** One of everything, and one of some things only. */
const COUNTS = [
  [1, 1, 1, 1],
  [2, 1, 1, 1],
  [1, 2, 2, 2],
  [0, 1, 0, 1],
] as const;

function* told(words: unknown, path: string): Generator<readonly [path: string, text: string]> {
  if (typeof words === 'function') {
    for (const counts of COUNTS) {
      try {
        const text: unknown = (words as (...given: readonly number[]) => unknown)(...counts);
        if (typeof text === 'string') yield [path, text];
      } catch {
        // It tells something else than counts.
      }
    }
  } else if (typeof words === 'object' && words !== null) {
    for (const [key, each] of Object.entries(words)) yield* told(each, `${path}.${key}`);
  }
}

it('one of a thing is never told as several, in either language', async () => {
  expect('1 parcels').toMatch(ONE_OF_SEVERAL);
  expect('Guardado: 1 nuevos').toMatch(ONE_OF_SEVERAL);
  expect('1 parcel, 11 parcels, 0.1 parcels').not.toMatch(ONE_OF_SEVERAL);
  const wrong = new Set<string>();
  let looked = 0;
  for (const file of readdirSync(FOLDER)) {
    const words = (await import(`${FOLDER}/${file}`)) as object;
    for (const [path, text] of told(words, file)) {
      looked += 1;
      if (ONE_OF_SEVERAL.test(text) && !NEVER_ONE.test(path)) wrong.add(`${path}: ${text}`);
    }
  }
  expect(looked).toBeGreaterThan(500);
  expect([...wrong]).toEqual([]);
});

it('one parcel that went by a service is told as one', () => {
  const sent = { parcels: 1, before: 545, after: 555, cheapestBefore: 545, cheapestAfter: 555, left: 0 };
  const amount = (minor: number) => `$${String(minor / 100)}`;
  expect(ratesEn.sent(sent, amount)).toMatch(/^1 parcel of the last 30 days/);
  expect(ratesEs.sent(sent, amount)).toMatch(/^1 paquete de los últimos 30 días/);
});
