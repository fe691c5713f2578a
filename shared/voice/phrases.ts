import type { Command } from '#shared/run/commands.ts';
import type { Language } from '#shared/words/language.ts';

/**
 * What is said for each command; buttons show the same words. Two or three words each, of several syllables, and far
 * apart in sound: single short words are taken for one another and are found in chatter.
 */
export const PHRASES: Readonly<Record<Language, Readonly<Record<Command, string>>>> = {
  en: {
    next: 'next item',
    back: 'previous step',
    repeat: 'say again',
    'set-aside': 'set aside',
    help: 'call for help',
    'too-tight': 'too tight',
    'item-missing': 'item missing',
    'item-damaged': 'item damaged',
    'zero-scale': 'zero the scale',
    'weigh-again': 'weigh once more',
    'make-lighter': 'make it lighter',
    'pay-next-bracket': 'pay the difference',
    'print-again': 'print again',
    'tell-more': 'explain it fully',
    'tell-less': 'keep it brief',
    practice: 'practice corner',
    'sign-off': 'leave the bench',
    confirm: 'confirm this',
    cancel: 'cancel that',
  },
  es: {
    next: 'siguiente',
    back: 'paso anterior',
    repeat: 'repetir',
    'set-aside': 'apartar',
    help: 'pedir ayuda',
    'too-tight': 'no cabe',
    'item-missing': 'falta una prenda',
    'item-damaged': 'prenda dañada',
    'zero-scale': 'poner a cero',
    'weigh-again': 'pesar otra vez',
    'make-lighter': 'aligerar',
    'pay-next-bracket': 'pagar la diferencia',
    'print-again': 'imprimir otra vez',
    'tell-more': 'explicar más',
    'tell-less': 'explicar menos',
    practice: 'practicar',
    'sign-off': 'dejar la mesa',
    confirm: 'confirmar',
    cancel: 'cancelar',
  },
};

/** Said before commands where a bench listens for them only after it was called. */
export const WAKE_PHRASE = 'listen packing bench';

/** The languages in which commands are understood; the other is shown and spoken, and given by touch, card or key. */
export const HEARD_LANGUAGES: readonly Language[] = ['en'];

/** The command whose phrase this is, exactly, or null. */
export function commandOf(phrase: string, language: Language): Command | null {
  const found = Object.entries(PHRASES[language]).find(([, words]) => words === phrase);
  return found === undefined ? null : (found[0] as Command);
}
