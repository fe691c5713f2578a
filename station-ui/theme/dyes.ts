/** The colours of the station, by what they are called in the dye house. `deep` ones are for text on kraft. */
export interface Dyes {
  /** the ground of the page */
  readonly chalk: string;
  /** the ground of bands and tags */
  readonly kraft: string;
  /** thread and edges; never text */
  readonly thread: string;
  /** main text */
  readonly ink: string;
  /** go, current */
  readonly indigo: string;
  /** text on indigo */
  readonly onIndigo: string;
  readonly indigoTint: string;
  readonly indigoPale: string;
  /** well */
  readonly verdigris: string;
  readonly verdigrisDeep: string;
  /** attention: always striped, always with `onWeld` text */
  readonly weld: string;
  readonly weldPale: string;
  readonly onWeld: string;
  /** stop, ceilings */
  readonly madder: string;
  readonly madderDeep: string;
  /** secondary text */
  readonly walnut: string;
  readonly walnutDeep: string;
}

export const LIGHT: Dyes = {
  chalk: '#FBF8F1',
  kraft: '#E7DBC2',
  thread: '#D8C8A6',
  ink: '#1B2130',
  indigo: '#27346B',
  onIndigo: '#FBF8F1',
  indigoTint: '#DDE1F1',
  indigoPale: '#EDF0F8',
  verdigris: '#0F5C55',
  verdigrisDeep: '#0B4741',
  weld: '#F2C230',
  weldPale: '#F7D563',
  onWeld: '#1B2130',
  madder: '#9C1F2B',
  madderDeep: '#7D1520',
  walnut: '#5A4632',
  walnutDeep: '#4A3826',
};

export const DARK: Dyes = {
  chalk: '#1B2130',
  kraft: '#2A3145',
  thread: '#59617A',
  ink: '#FBF8F1',
  indigo: '#B9C3F5',
  onIndigo: '#1B2130',
  indigoTint: '#46507F',
  indigoPale: '#333C63',
  verdigris: '#7FD6C8',
  verdigrisDeep: '#7FD6C8',
  weld: '#F2C230',
  weldPale: '#F7D563',
  onWeld: '#1B2130',
  madder: '#FFA9AE',
  madderDeep: '#FFA9AE',
  walnut: '#D9C7A8',
  walnutDeep: '#D9C7A8',
};

/** Text on ground that the screens really use; each holds 7:1 in both themes. */
export const TEXT_ON_GROUND: readonly (readonly [text: keyof Dyes, ground: keyof Dyes])[] = [
  ['ink', 'chalk'],
  ['ink', 'kraft'],
  ['walnut', 'chalk'],
  ['walnutDeep', 'kraft'],
  ['indigo', 'chalk'],
  ['indigo', 'kraft'],
  ['onIndigo', 'indigo'],
  ['verdigris', 'chalk'],
  ['verdigrisDeep', 'kraft'],
  ['madder', 'chalk'],
  ['madderDeep', 'kraft'],
  ['onWeld', 'weld'],
  ['onWeld', 'weldPale'],
];

function luminance(hex: string): number {
  const channel = (from: number): number => {
    const value = Number.parseInt(hex.slice(from, from + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

/** Contrast ratio of two "#RRGGBB" colours, 1 to 21 (WCAG 2.2, relative luminance and contrast ratio). */
export function contrast(a: string, b: string): number {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}
