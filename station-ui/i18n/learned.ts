import type { Language } from '#shared/words/language.ts';

/** What the "What it learned" page says. */
export interface LearnedWords {
  readonly title: string;
  readonly how: string;
  readonly kind: string;
  readonly mass: string;
  readonly thickness: string;
  readonly before: string;
  readonly now: string;
  readonly parcels: string;
  readonly closed: string;
  readonly tooTight: string;
  readonly outliers: string;
  readonly nothingYet: string;
  readonly onlyLearned: string;
  readonly forget: string;
  readonly forgetSure: (kind: string) => string;
  readonly keep: string;
  readonly forgotten: (kind: string) => string;
  readonly order: string;
  readonly weighed: (mass: string, away: string) => string;
  readonly didClose: (chance: string) => string;
  readonly didNotClose: (chance: string) => string;
  readonly notLearned: string;
  readonly loading: string;
  readonly failed: (message: string) => string;
  readonly noServer: string;
}

const en: LearnedWords = {
  title: 'What it learned',
  how: 'Each finished parcel tells what its kind of piece weighs, each container that closed or was too tight how thick it folds. Plans use what is written under “now”. Masses are of the usual size and cloth.',
  kind: 'Kind',
  mass: 'Mass',
  thickness: 'Thickness, times the sums',
  before: 'at first',
  now: 'now',
  parcels: 'parcels',
  closed: 'closed',
  tooTight: 'too tight',
  outliers: 'To be looked at',
  nothingYet: 'Nothing was learned yet. Finish a parcel and come back.',
  onlyLearned: 'Only kinds with something learned',
  forget: 'Forget',
  forgetSure: (kind) => `Forget all of ${kind}`,
  keep: 'Keep',
  forgotten: (kind) => `${kind}: forgotten`,
  order: 'Order',
  weighed: (mass, away) => `weighed like ${mass}, ${away} standard deviations away`,
  didClose: (chance) => `closed, which had a chance of ${chance}`,
  didNotClose: (chance) => `was too tight, which had a chance of ${chance}`,
  notLearned: 'not learned',
  loading: 'Reading …',
  failed: (message) => `That did not work: ${message}`,
  noServer: 'the server does not answer',
};

const es: LearnedWords = {
  title: 'Lo que aprendió',
  how: 'Cada paquete terminado dice cuánto pesa su tipo de prenda; cada embalaje que cerró o quedó justo, qué grosor tiene doblada. Los planes usan lo que pone en «ahora». Los pesos son de la talla y el tejido habituales.',
  kind: 'Tipo',
  mass: 'Peso',
  thickness: 'Grosor respecto al cálculo',
  before: 'al principio',
  now: 'ahora',
  parcels: 'paquetes',
  closed: 'cerró',
  tooTight: 'muy justo',
  outliers: 'Para revisar',
  nothingYet: 'Aún no ha aprendido nada. Termine un paquete y vuelva.',
  onlyLearned: 'Solo tipos con algo aprendido',
  forget: 'Olvidar',
  forgetSure: (kind) => `Olvidar todo de ${kind}`,
  keep: 'Conservar',
  forgotten: (kind) => `${kind}: olvidado`,
  order: 'Pedido',
  weighed: (mass, away) => `pesó como ${mass}, a ${away} desviaciones típicas`,
  didClose: (chance) => `cerró, con una probabilidad de ${chance}`,
  didNotClose: (chance) => `quedó justo, con una probabilidad de ${chance}`,
  notLearned: 'no se aprendió',
  loading: 'Leyendo …',
  failed: (message) => `No se pudo: ${message}`,
  noServer: 'el servidor no responde',
};

export const learnedWords: Readonly<Record<Language, LearnedWords>> = { en, es };
