import type { OrderPlan, PlanRejection, RejectionCode } from './types.ts';
import { reasonWords } from '#shared/rating/explain.ts';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import { formatMoney, money, moneyTextIn } from '#shared/units/money.ts';
import type { Language, Localised } from '#shared/words/language.ts';

const SENTENCES: Readonly<Record<RejectionCode, Localised>> = {
  'left-out': { en: 'Left out for this order', es: 'Descartado para este pedido' },
  'too-tight': { en: 'Too tight: {by} short in {limit}', es: 'Demasiado justo: faltan {by} de {limit}' },
  'must-not-press': {
    en: 'Closes only when pressed, and these pieces must not be pressed',
    es: 'Solo cierra con presión, y estas prendas no se deben aplastar',
  },
  'no-service': {
    en: 'The pieces fit, but no service takes it',
    es: 'Las prendas caben, pero ningún servicio lo admite',
  },
  'too-heavy': {
    en: 'Expected to weigh {expected}; it takes {most} at most',
    es: 'Se espera que pese {expected}; admite {most} como máximo',
  },
  'too-light': {
    en: 'Expected to weigh {expected}; it takes {least} at least',
    es: 'Se espera que pese {expected}; admite {least} como mínimo',
  },
  'slower-than-paid': {
    en: 'Slower than {paid}, which the buyer paid for',
    es: 'Más lento que {paid}, que es lo que pagó quien compra',
  },
  'later-than-promised': {
    en: 'May take {days} days: later than {by}, which was promised',
    es: 'Puede tardar {days} días: después del {by}, que es lo prometido',
  },
  'out-of-stock': { en: 'Out of stock', es: 'Agotado' },
  'wants-double-bag': {
    en: 'A piece is worth so much that one pouch is not enough for it',
    es: 'Una prenda vale tanto que no basta un solo sobre',
  },
  dearer: { en: 'Costs {by} more', es: 'Cuesta {by} más' },
  'no-cheaper': { en: 'Costs the same', es: 'Cuesta lo mismo' },
};

const LIMITS: Readonly<Record<string, Localised>> = {
  width: { en: 'width', es: 'ancho' },
  length: { en: 'length', es: 'largo' },
  thickness: { en: 'thickness', es: 'grosor' },
  'thickness-cap': { en: 'the thickness that it may have', es: 'grosor permitido' },
};

function isOwnCode(code: string): code is RejectionCode {
  return code in SENTENCES;
}

/** One sentence on why a container, or a service in it, was not chosen. The codes of rating are put by rating. */
export function rejectionWords(rejection: PlanRejection, language: Language): string {
  const { code, values } = rejection;
  if (!isOwnCode(code)) return reasonWords({ code, values }, language);
  return SENTENCES[code][language].replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = values[name] ?? '';
    return name === 'limit'
      ? (LIMITS[value]?.[language] ?? value)
      : quantitiesIn(moneyTextIn(value, language), language);
  });
}

/** What the chosen plan saves against the next best; null when there is no other. */
export interface Saving {
  /** the next best plan's container; of its first parcel when it has several */
  readonly over: { readonly container: string; readonly name: Localised };
  /** whole minor units, never negative */
  readonly minor: number;
}

export function savingOf(plan: OrderPlan): Saving | null {
  const next = plan.alternatives[0];
  const container = next?.parcels[0]?.container;
  if (next === undefined || container === undefined) return null;
  const minor = Math.max(0, Math.round(next.cost.total - plan.cost.total));
  return { over: { container: container.id, name: container.name }, minor };
}

/** What the buyer was promised and no parcel can keep. */
function promiseWords({ service, arriveBy }: NonNullable<OrderPlan['promise']>): Localised {
  if (service === undefined || arriveBy !== undefined) {
    return {
      en: ` Nothing is sure to arrive by ${arriveBy ?? ''}, as was promised.`,
      es: ` Nada llega con seguridad el ${arriveBy ?? ''}, como se prometió.`,
    };
  }
  return {
    en: ` It cannot go by ${service} or as quickly, which the buyer paid for.`,
    es: ` No puede ir por ${service} ni igual de rápido, que es lo que pagó quien compra.`,
  };
}

/** One sentence on why this plan: "Saves $2.31 against Carton 12 x 9 x 4." */
export function whyWords(plan: OrderPlan, language: Language): string {
  const saving = savingOf(plan);
  const parcels = plan.parcels.length;
  const proof =
    plan.proven || plan.lowerBound === undefined
      ? ''
      : {
          en: ' Not proven the cheapest: that costs at least {least}.',
          es: ' No está demostrado que sea el más barato: este cuesta al menos {least}.',
        }[language].replace('{least}', formatMoney(money(Math.floor(plan.lowerBound), plan.cost.currency), language));
  const broken = plan.promise?.kept === false ? promiseWords(plan.promise)[language] : '';
  if (saving === null) {
    const only = {
      en:
        parcels > 1 ? `No one container takes all the pieces: ${parcels} parcels.` : 'The only container that will do.',
      es:
        parcels > 1 ? `Ningún embalaje admite todas las prendas: ${parcels} paquetes.` : 'El único embalaje que sirve.',
    };
    return only[language] + proof + broken;
  }
  const by = formatMoney(money(saving.minor, plan.cost.currency), language);
  const over = saving.over.name[language];
  const several = {
    en: `In ${parcels} parcels it saves ${by} against ${over}.`,
    es: `En ${parcels} paquetes se ahorran ${by} frente a ${over}.`,
  };
  const one = { en: `Saves ${by} against ${over}.`, es: `Ahorra ${by} frente a ${over}.` };
  return (parcels > 1 ? several : one)[language] + proof + broken;
}
