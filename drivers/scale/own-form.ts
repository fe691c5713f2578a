import { compilePattern, type OwnForm } from '#shared/weighing/own-form.ts';
import { DriverError } from '../driver-error.ts';
import { boundedFrames } from './bounded-frames.ts';
import type { DiscardReason, ScaleDecoder, ScaleFrame } from './frames.ts';
import { placesOf, shownMass, unitNamed } from './number.ts';

export type { OwnForm } from '#shared/weighing/own-form.ts';

const STX = 0x02;
const ETX = 0x03;
const LF = 0x0a;
const CR = 0x0d;
const LONGEST = 80;

/**
 * The pattern, anchored to the whole line.
 * @throws DriverError bad-pattern: no regular expression, no `number` group, an unknown group, or a repeated group that
 *   repeats inside, which can take for ever on a line of garbage
 */
export function compileForm(form: OwnForm): RegExp {
  const compiled = compilePattern(form.pattern);
  if (compiled.ok) return compiled.regex;
  throw new DriverError('bad-pattern', `scale pattern: expected ${compiled.expected}, found "${form.pattern}"`);
}

/**
 * Decoder for a form described in the config. A line counts only when its beginning was seen.
 * @throws DriverError bad-pattern
 */
export function ownDecoder(form: OwnForm): ScaleDecoder {
  const regex = compileForm(form);
  const cut = boundedFrames({ starts: [STX], ends: [CR, LF, ETX], longest: LONGEST });
  return {
    push(chunk) {
      return cut(chunk).map((raw): ScaleFrame => {
        if (raw.kind === 'too-long') return { kind: 'discarded', why: 'too-long', bytes: raw.bytes };
        if (!raw.whole) return { kind: 'discarded', why: 'no-start', bytes: raw.bytes };
        return decodeOwn(raw.bytes, regex, form);
      });
    },
  };
}

function decodeOwn(bytes: Uint8Array, regex: RegExp, form: OwnForm): ScaleFrame {
  const discard = (why: DiscardReason): ScaleFrame => ({ kind: 'discarded', why, bytes });
  if (bytes.some((byte) => byte < 0x20 || byte > 0x7e)) return discard('form');
  const line = String.fromCharCode(...bytes);
  const found: Readonly<Record<string, string | undefined>> | undefined = regex.exec(line)?.groups;
  if (found === undefined) return discard('form');

  const status = found.status?.trim() ?? '';
  const says = (which: keyof NonNullable<OwnForm['words']>): boolean => form.words?.[which]?.includes(status) ?? false;
  for (const condition of ['over', 'under', 'fault'] as const) {
    if (says(condition)) return { kind: 'no-weight', condition, says: line };
  }
  const named = found.unit?.trim() ?? '';
  const unit = named === '' ? (form.unit ?? null) : unitNamed(named);
  if (unit === null) return discard('unit');
  const digits = found.number?.trim() ?? '';
  const sign = found.sign?.trim() ?? '';
  if (!/^\d+(\.\d+)?$/.test(digits) || !/^[+-]?$/.test(sign)) return discard('number');
  const mass = shownMass(sign, digits, unit);
  if (mass === null) return discard('number');
  return {
    kind: 'weight',
    mass,
    unit,
    places: placesOf(digits),
    stability: says('still') ? 'still' : says('moving') ? 'moving' : 'unknown',
    net: form.words?.net?.includes(found.weighed?.trim() ?? '') ?? false,
  };
}

/** What a form makes of each line of a pasted sample, so that it can be tried before a scale is trusted with it. */
export function tryForm(
  form: OwnForm,
  sample: string,
): readonly { readonly line: string; readonly frame: ScaleFrame }[] {
  return sample
    .split(/\r\n|\r|\n/)
    .filter((line) => line !== '')
    .map((line) => {
      const decoder = ownDecoder(form);
      const [frame] = decoder.push(new TextEncoder().encode(`\n${line}\n`));
      return { line, frame: frame ?? { kind: 'discarded', why: 'form', bytes: new Uint8Array() } };
    });
}
