import type { Command } from '#shared/run/commands.ts';
import type { Language } from '#shared/words/language.ts';

/**
 * What is said for each command; buttons show the same words. Two or three words each, of several syllables, and far
 * apart in sound: single short words are taken for one another and are found in chatter.
 */
export const PHRASES: Readonly<Record<Language, Readonly<Record<Command, string>>>> = {
  en: {
    next: 'next item',
    back: 'one step back',
    repeat: 'one more time',
    'set-aside': 'set aside',
    help: 'please help me',
    'too-tight': 'package too small',
    'item-missing': 'something missing',
    'go-without': 'continue without it',
    'item-damaged': 'found damage',
    'zero-scale': 'reset the scale',
    'weigh-again': 'weigh once more',
    'make-lighter': 'lighten this parcel',
    'pay-next-bracket': 'pay the difference',
    'print-again': 'print again',
    'enter-number': 'number by hand',
    'start-over': 'start over',
    'tell-more': 'tell me everything',
    'tell-less': 'briefly please',
    practice: 'practice session',
    'fold-ahead': 'batch folding',
    'aside-list': 'look at the shelf',
    release: 'return to the queue',
    'print-list': 'list on paper',
    'sign-off': 'my work is done',
    confirm: 'yes confirm',
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
    'go-without': 'enviar sin ella',
    'item-damaged': 'prenda dañada',
    'zero-scale': 'poner a cero',
    'weigh-again': 'pesar otra vez',
    'make-lighter': 'aligerar',
    'pay-next-bracket': 'pagar la diferencia',
    'print-again': 'imprimir otra vez',
    'enter-number': 'número a mano',
    'start-over': 'empezar de nuevo',
    'tell-more': 'explicar más',
    'tell-less': 'explicar menos',
    practice: 'practicar',
    'fold-ahead': 'doblar en serie',
    'aside-list': 'ver apartados',
    release: 'devolver pedido',
    'print-list': 'lista en papel',
    'sign-off': 'dejar la mesa',
    confirm: 'confirmar',
    cancel: 'cancelar',
  },
};

/** A second phrase for each command, for people whose first one is heard badly; sounds unlike it. */
export const ALTERNATIVES: Readonly<Record<Command, string>> = {
  next: 'forward please',
  back: 'previous step',
  repeat: 'repeat that',
  'set-aside': 'leave for later',
  help: 'supervisor please',
  'too-tight': 'too tight',
  'item-missing': 'item missing',
  'go-without': 'ship the remainder',
  'item-damaged': 'piece damaged',
  'zero-scale': 'set to zero',
  'weigh-again': 'repeat weighing',
  'make-lighter': 'remove some weight',
  'pay-next-bracket': 'next bracket',
  'print-again': 'print another copy',
  'enter-number': 'digits instead',
  'start-over': 'all digits again',
  confirm: 'confirm this',
  cancel: 'negative cancel',
  'tell-more': 'explain it fully',
  'tell-less': 'less explanation',
  practice: 'training exercise',
  'fold-ahead': 'several together',
  'aside-list': 'show what is waiting',
  release: 'let it go',
  'print-list': 'put it on paper',
  'sign-off': 'leave the bench',
};

/** Said before commands where a bench listens for them only after it was called. */
export const WAKE_PHRASE = 'listen packing bench';

/** The languages in which commands are understood; the other is shown and spoken, and given by touch, card or key. */
export const HEARD_LANGUAGES: readonly Language[] = ['en'];

/** The command whose phrase this is, its first or its second, exactly; or null. */
export function commandOf(phrase: string, language: Language): Command | null {
  const said = ([, words]: readonly [string, string]) => words === phrase;
  const found =
    Object.entries(PHRASES[language]).find(said) ??
    (language === 'en' ? Object.entries(ALTERNATIVES).find(said) : undefined);
  return found === undefined ? null : (found[0] as Command);
}
