import { describe, expect, it } from 'vitest';
import { careWords } from '#station-ui/i18n/care.ts';
import { guidanceWords } from '#station-ui/i18n/guidance.ts';
import { peopleWords, practiceWords } from '#station-ui/i18n/practice.ts';
import { DARK, LIGHT, TEXT_ON_GROUND, contrast } from '#station-ui/theme/dyes.ts';

function strings(node: unknown, path = ''): [string, string][] {
  if (typeof node === 'string') return [[path, node]];
  if (typeof node === 'function') {
    const said: unknown = (node as (...values: readonly unknown[]) => unknown)('3', '4', '5');
    return typeof said === 'string' ? [[path, said]] : [];
  }
  if (node === null || typeof node !== 'object') return [];
  return Object.entries(node).flatMap(([key, value]) => strings(value, `${path}/${key}`));
}

describe.each([
  ['guidance', guidanceWords],
  ['practice', practiceWords],
  ['people', peopleWords],
  ['care', careWords],
])('the words of %s', (_, words) => {
  it('are complete in both languages and differ wherever people read sentences', () => {
    const [english, spanish] = [new Map(strings(words.en)), new Map(strings(words.es))];
    expect([...spanish.keys()].sort()).toEqual([...english.keys()].sort());
    for (const [path, text] of [...english, ...spanish]) expect(`${path}: ${text}`).toMatch(/: \S/);
    const same = [...english].filter(([path, text]) => text.trim().includes(' ') && spanish.get(path) === text);
    expect(same).toEqual([]);
  });
});

/**
 * How a dye looks to an eye without red (protan) or green (deutan) cones: matrices for full severity of Machado, Oliveira and
 * Fernandes, "A Physiologically-based Model for Simulation of Color Vision Deficiency" (2009), from memory; in linear light.
 */
const DEFICIENCIES = {
  protan: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  deutan: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
} as const;

function seenBy(hex: string, m: readonly number[]): string {
  const linear = [1, 3, 5].map((from) => {
    const value = Number.parseInt(hex.slice(from, from + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  const channel = (row: number) => {
    const light = linear.reduce((sum, value, index) => sum + value * (m[row * 3 + index] ?? 0), 0);
    const held = Math.max(0, Math.min(1, light));
    const coded = held <= 0.0031308 ? held * 12.92 : 1.055 * held ** (1 / 2.4) - 0.055;
    return Math.round(coded * 255)
      .toString(16)
      .padStart(2, '0');
  };
  return `#${channel(0)}${channel(1)}${channel(2)}`;
}

it.each(Object.entries(DEFICIENCIES))(
  'text stays readable to a %s eye: 4.5:1 at least on every ground, light and dark',
  (_, matrix) => {
    for (const dyes of [LIGHT, DARK]) {
      for (const [text, ground] of TEXT_ON_GROUND) {
        const ratio = contrast(seenBy(dyes[text], matrix), seenBy(dyes[ground], matrix));
        expect(ratio, `${text} on ${ground}`).toBeGreaterThanOrEqual(4.5);
      }
    }
  },
);
