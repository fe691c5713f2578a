import type { Language } from '#shared/words/language.ts';
import { plural } from './plural.ts';

/** What is said of lifting and of pauses. */
export interface CareWords {
  /** a parcel's mass beside the limit that the lifting equation gives */
  readonly lift: (mass: string, limit: string) => string;
  readonly pause: (worked: number, rest: number) => string;
}

const en: CareWords = {
  lift: (mass, limit) => `about ${mass}; here one person should lift ${limit} at most (NIOSH equation)`,
  pause: (worked, rest) => `${plural(worked, 'minute')} at a stretch: take ${plural(rest, 'minute')} off`,
};

const es: CareWords = {
  lift: (mass, limit) => `unos ${mass}; aquí una persona debería levantar ${limit} como mucho (ecuación NIOSH)`,
  pause: (worked, rest) => `${plural(worked, 'minuto seguido', 'minutos seguidos')}: descansa ${String(rest)}`,
};

export const careWords: Readonly<Record<Language, CareWords>> = { en, es };
