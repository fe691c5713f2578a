import type { BagWords, DoubtWords } from './words.ts';
import type { Language } from '#shared/words/language.ts';

/** What is said of a plan that is not certain. */
export const doubtWords: Readonly<Record<Language, DoubtWords>> = {
  en: {
    heading: 'not certain',
    assumed: (what, weighed) =>
      `${what.join(' and ')} assumed: ${weighed ? 'the fold may come out larger or smaller' : 'weight may differ more'}`,
    notProven: (dearer, least) => `not proven cheapest: at most ${dearer} dearer (least ${least})`,
    service: (paid) => `cannot go by ${paid} or as quickly, which the buyer paid for`,
    arriveBy: (day) => `may not arrive by ${day}, as promised`,
  },
  es: {
    heading: 'no es seguro',
    assumed: (what, weighed) => {
      const both = what.map((each) => ({ size: 'talla', cloth: 'tejido' })[each]).join(' y ');
      const one = what.length === 1 ? (what[0] === 'size' ? 'supuesta' : 'supuesto') : 'supuestos';
      return `${both} ${one}: ${weighed ? 'el doblez puede salir mayor o menor' : 'el peso puede variar más'}`;
    },
    notProven: (dearer, least) => `más barato no demostrado: como mucho ${dearer} más (mínimo ${least})`,
    service: (paid) => `no puede ir por ${paid} ni igual de rápido, que es lo que se pagó`,
    arriveBy: (day) => `puede no llegar el ${day}, como se prometió`,
  },
};

/** A pouch in a pouch, and pieces in piles. */
export const bagWords: Readonly<Record<Language, BagWords>> = {
  en: {
    how: 'close the inner one, then into the outer; scan either',
    heading: 'Double bag',
    inner: (name) => `inner: ${name}`,
    outer: (name) => `outer: ${name}`,
    piles: (count) => `${count === 2 ? 'two' : String(count)} piles side by side`,
  },
  es: {
    how: 'cierra el de dentro y mételo en el de fuera; lee cualquiera',
    heading: 'Doble sobre',
    inner: (name) => `dentro: ${name}`,
    outer: (name) => `fuera: ${name}`,
    piles: (count) => `${count === 2 ? 'dos' : String(count)} montones, uno junto a otro`,
  },
};
