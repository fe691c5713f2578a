/** A key as a scanner presses it that leaves the factory set to a US keyboard: its place, and whether with Shift. */
export interface Stroke {
  readonly code: string;
  readonly shift: boolean;
}

export const ENTER: Stroke = { code: 'Enter', shift: false };

const SHIFTED_DIGITS = ')!@#$%^&*(';
/** Places of the other characters of a US keyboard, plain and shifted. */
const OTHERS: Readonly<Record<string, string>> = {
  Space: '  ',
  Minus: '-_',
  Equal: '=+',
  BracketLeft: '[{',
  BracketRight: ']}',
  Semicolon: ';:',
  Slash: '/?',
  Period: '.>',
  Comma: ',<',
};

/** The strokes of a text on a US keyboard. */
export function strokes(text: string): readonly Stroke[] {
  return Array.from(text).map((character) => {
    if (/[a-z]/i.test(character)) return { code: `Key${character.toUpperCase()}`, shift: /[A-Z]/.test(character) };
    if (/\d/.test(character)) return { code: `Digit${character}`, shift: false };
    const digit = SHIFTED_DIGITS.indexOf(character);
    if (digit >= 0) return { code: `Digit${String(digit)}`, shift: true };
    const found = Object.entries(OTHERS).find(([, pair]) => pair.includes(character));
    if (found === undefined) throw new Error(`no key for ${JSON.stringify(character)}`);
    return { code: found[0], shift: found[1].indexOf(character) === 1 };
  });
}

/** What national layouts make of places, plain and shifted, where they differ from a US keyboard; from memory. */
const LAYOUTS = {
  us: {},
  spanish: {
    Minus: "'?",
    Equal: '¡¿',
    BracketRight: '+*',
    Semicolon: 'ñÑ',
    Slash: '-_',
    Period: '.:',
    Comma: ',;',
    Digit2: '2"',
    Digit6: '6&',
    Digit7: '7/',
    Digit8: '8(',
    Digit9: '9)',
    Digit0: '0=',
  },
  french: {
    KeyA: 'qQ',
    KeyQ: 'aA',
    KeyW: 'zZ',
    KeyZ: 'wW',
    KeyM: ',?',
    Semicolon: 'mM',
    Minus: ')°',
    Slash: '!§',
    Digit0: 'à0',
    Digit1: '&1',
    Digit2: 'é2',
    Digit3: '"3',
    Digit4: "'4",
    Digit5: '(5',
    Digit6: '-6',
    Digit7: 'è7',
    Digit8: '_8',
    Digit9: 'ç9',
  },
  german: { KeyY: 'zZ', KeyZ: 'yY', Minus: 'ß?', Slash: '-_', Semicolon: 'öÖ' },
} as const satisfies Record<string, Readonly<Record<string, string>>>;
export type Layout = keyof typeof LAYOUTS;

/** The key that a page sees when a stroke meets a layout. */
export function typedOn(layout: Layout, stroke: Stroke): { key: string; code: string; shift: boolean } {
  const { code, shift } = stroke;
  if (code === 'Enter') return { key: 'Enter', code, shift };
  const places: Readonly<Record<string, string>> = LAYOUTS[layout];
  const pair = places[code] ?? OTHERS[code] ?? usPair(code);
  return { key: pair[shift ? 1 : 0] ?? '', code, shift };
}

function usPair(code: string): string {
  const last = code.slice(-1);
  if (code.startsWith('Key')) return `${last.toLowerCase()}${last}`;
  return `${last}${SHIFTED_DIGITS[Number(last)] ?? ''}`;
}
