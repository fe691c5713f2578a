import { badInput } from './cli-error.ts';
import type { Command, Outcome } from './command.ts';
import { chance, gramsDocument, massDocument } from './documents.ts';
import { optional, quantity, required, type Options } from './options.ts';
import { table } from './table.ts';
import { formatMass, parseMass, ZERO_MASS, type Mass, type MassUnit } from '#shared/units/mass.ts';
import type { Accuracy, Addition, Verdict } from '#shared/weighing/types.ts';
import { judge } from '#shared/weighing/verdict.ts';

const CLASSES: Readonly<Record<string, Accuracy>> = {
  hb44: { kind: 'hb44', when: 'in-service' },
  'hb44-acceptance': { kind: 'hb44', when: 'acceptance' },
  r76: { kind: 'r76', when: 'in-service' },
  'r76-verification': { kind: 'r76', when: 'verification' },
};

const massOption = (name: string, text: string) => quantity(name, text, parseMass);

function accuracyOption(text: string): Accuracy {
  return CLASSES[text] ?? { kind: 'own', plusMinus: massOption('accuracy', text) };
}

/** "0.1oz", or with its half-width "0.1oz+-0.02oz" */
function additionOption(text: string, index: number): Addition {
  const [mass = '', plusMinus] = text.split(/\+-|±/);
  return {
    name: `addition ${index + 1}`,
    mass: massOption('additions', mass),
    plusMinus: plusMinus === undefined ? ZERO_MASS : massOption('additions', plusMinus),
  };
}

const WORDS: Readonly<Record<Verdict['verdict'], string>> = {
  clear: 'clear: at or below the ceiling, margin of error included',
  close: 'close: the ceiling lies within the margin of error',
  over: 'over: above the ceiling',
};

/** The unit that a text was written in, for showing results. */
function unitOf(text: string): MassUnit {
  if (/k(g|ilo)/i.test(text)) return 'kg';
  if (/oz|ounce/i.test(text)) return 'oz';
  return /lb|pound/i.test(text) ? 'lb' : 'g';
}

function outcome(verdict: Verdict, unit: MassUnit): Outcome {
  const show = (mass: Mass) => formatMass(mass, unit, 3);
  const components = verdict.components.map(({ name, of, halfWidth, standardGrams }) => ({
    name,
    ...(of === undefined ? {} : { of }),
    halfWidth: massDocument(halfWidth),
    standard: gramsDocument(standardGrams),
  }));
  const document = {
    verdict: verdict.verdict,
    total: massDocument(verdict.total),
    ceiling: massDocument(verdict.ceiling),
    margin: massDocument(verdict.margin),
    uncertainty: massDocument(verdict.uncertainty),
    worstCase: massDocument(verdict.worstCase),
    probabilityOver: chance(verdict.probabilityOver),
    components,
  };
  const facts = [
    ['total', show(verdict.total)],
    ['ceiling', show(verdict.ceiling)],
    ['margin', show(verdict.margin)],
    ['uncertainty (k = 2)', show(verdict.uncertainty)],
    ['worst case', show(verdict.worstCase)],
    ['chance of being over', `${(verdict.probabilityOver * 100).toFixed(1)} %`],
    ...verdict.components.map(({ name, of, halfWidth }) => [`  ${of ?? name}`, `±${show(halfWidth)}`]),
  ];
  return { document, text: `${WORDS[verdict.verdict]}\n${table([], facts)}`, complaints: [] };
}

function run(options: Options): Outcome {
  const reading = required(options, 'reading');
  const division = massOption('division', required(options, 'division'));
  if (division <= 0) badInput('--division: expected more than nothing, as the scale shows in steps');
  const verdict = judge({
    reading: { mass: massOption('reading', reading), division },
    ceiling: massOption('ceiling', required(options, 'ceiling')),
    additions: (options.texts.get('additions') ?? []).map(additionOption),
    accuracy: accuracyOption(optional(options, 'accuracy') ?? 'hb44'),
    drift: massOption('drift', optional(options, 'drift') ?? '0g'),
  });
  return outcome(verdict, unitOf(reading));
}

/** A weighing against a bracket's ceiling. */
export const verdictCommand: Command = {
  usage: `verdict --reading 15.9oz --division 0.1oz --ceiling 16oz [--additions 0.1oz+-0.02oz]...
    [--accuracy hb44|hb44-acceptance|r76|r76-verification|0.1oz] [--drift 0.05oz]`,
  options: ['reading', 'division', 'ceiling', 'additions', 'accuracy', 'drift'],
  repeatable: ['additions'],
  run,
};
