import { span } from './time.ts';
import type { TurnRule } from '#shared/queue/choice.ts';
import type { Language } from '#shared/words/language.ts';

/** What the bench says of the queue: which order is next and why, and how the day stands. */
export interface QueueWords {
  readonly next: (order: string) => string;
  readonly collection: (when: string, carriers: string, left: string) => string;
  readonly missed: (when: string) => string;
  readonly left: (minutes: number) => string;
  readonly container: (name: string, same: boolean) => string;
  readonly shelf: (shelf: string, same: boolean) => string;
  readonly basket: (basket: number) => string;
  /** by what it goes before the one after it */
  readonly by: Readonly<Record<TurnRule, string>>;
  /** instead of the collection, where that has gone */
  readonly late: string;
  readonly onlyOne: string;
  readonly counts: Readonly<Record<'waiting' | 'atRisk' | 'missed' | 'done' | 'setAside', (count: number) => string>>;
  /** the same in as few letters as can be, for the head of the screen */
  readonly short: Readonly<Record<'waiting' | 'atRisk' | 'done', (count: number) => string>>;
  readonly day: string;
}

const en: QueueWords = {
  next: (order) => `Next: ${order}`,
  collection: (when, carriers, left) => `collection ${when}${carriers === '' ? '' : `, ${carriers}`}, ${left}`,
  missed: (when) => `its collection at ${when} has gone`,
  left: (minutes) => `in ${span(minutes)}`,
  container: (name, same) => (same ? `same container as before: ${name}` : name),
  shelf: (shelf, same) => (same ? `same shelf: ${shelf}` : `shelf ${shelf}`),
  basket: (basket) => `already folded, in basket ${String(basket)}`,
  by: {
    collection: 'it is collected first',
    container: 'the container lies ready',
    shelf: 'you stand at its shelf',
    age: 'it has waited longest',
  },
  late: 'it should have left already',
  onlyOne: 'no other order waits',
  counts: {
    waiting: (count) => `${String(count)} left`,
    atRisk: (count) => `${String(count)} may miss the collection`,
    missed: (count) => `${String(count)} missed it`,
    done: (count) => `${String(count)} done today`,
    setAside: (count) => `${String(count)} set aside`,
  },
  short: {
    waiting: (count) => `${String(count)} left`,
    atRisk: (count) => `${String(count)} at risk`,
    done: (count) => `${String(count)} done`,
  },
  day: 'the day',
};

const es: QueueWords = {
  next: (order) => `Siguiente: ${order}`,
  collection: (when, carriers, left) => `recogida ${when}${carriers === '' ? '' : `, ${carriers}`}, ${left}`,
  missed: (when) => `su recogida de las ${when} ya pasó`,
  left: (minutes) => `en ${span(minutes)}`,
  container: (name, same) => (same ? `mismo embalaje que antes: ${name}` : name),
  shelf: (shelf, same) => (same ? `mismo estante: ${shelf}` : `estante ${shelf}`),
  basket: (basket) => `ya doblado, en la cesta ${String(basket)}`,
  by: {
    collection: 'lo recogen antes',
    container: 'el embalaje está a mano',
    shelf: 'estás ante su estante',
    age: 'es el que más espera',
  },
  late: 'ya debería haber salido',
  onlyOne: 'no espera ningún otro',
  counts: {
    waiting: (count) => (count === 1 ? 'queda 1' : `quedan ${String(count)}`),
    atRisk: (count) => (count === 1 ? '1 puede perder la recogida' : `${String(count)} pueden perder la recogida`),
    missed: (count) => (count === 1 ? '1 la perdió' : `${String(count)} la perdieron`),
    done: (count) => `${String(count)} ${count === 1 ? 'hecho' : 'hechos'} hoy`,
    setAside: (count) => `${String(count)} ${count === 1 ? 'apartado' : 'apartados'}`,
  },
  short: {
    waiting: (count) => (count === 1 ? 'queda 1' : `quedan ${String(count)}`),
    atRisk: (count) => `${String(count)} en riesgo`,
    done: (count) => `${String(count)} ${count === 1 ? 'hecho' : 'hechos'}`,
  },
  day: 'el día',
};

export const queueWords: Readonly<Record<Language, QueueWords>> = { en, es };
