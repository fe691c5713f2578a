import type { MassUnit } from '#shared/units/mass.ts';
import { DriverError } from '../driver-error.ts';
import { boundedFrames } from './bounded-frames.ts';
import type { DiscardReason, ScaleDecoder, ScaleFrame } from './frames.ts';
import { placesOf, shownMass, unitNamed } from './number.ts';

/** A scale's output as its owner describes it in the config. */
export interface OwnForm {
  readonly kind: 'own';
  /**
   * A regular expression for one whole line, with the named groups `number` (required), `sign`, `unit`, `status` and
   * `weighed`.
   */
  readonly pattern: string;
  /** what the `status` group holds when the scale is still, moving, over or under; what `weighed` holds for net */
  readonly words?: Partial<
    Readonly<Record<'still' | 'moving' | 'over' | 'under' | 'fault' | 'net', readonly string[]>>
  >;
  /** unit of lines that name none */
  readonly unit?: MassUnit;
  /** sent to ask for one weight; left out for a scale that sends by itself */
  readonly ask?: string;
  /** sent to set the scale to zero */
  readonly zero?: string;
}

const STX = 0x02;
const ETX = 0x03;
const LF = 0x0a;
const CR = 0x0d;
const LONGEST = 80;
const GROUPS: ReadonlySet<string> = new Set(['number', 'sign', 'unit', 'status', 'weighed']);

/**
 * The pattern, anchored to the whole line.
 * @throws DriverError bad-pattern: no regular expression, no `number` group, an unknown group, or a repeated group that
 *   repeats inside, which can take for ever on a line of garbage
 */
export function compileForm(form: OwnForm): RegExp {
  const bad = (what: string): DriverError =>
    new DriverError('bad-pattern', `scale pattern: ${what}, found "${form.pattern}"`);
  let regex: RegExp;
  try {
    regex = new RegExp(`^(?:${form.pattern})$`);
  } catch (error) {
    throw bad(`expected a regular expression (${error instanceof Error ? error.message : String(error)})`);
  }
  const names = Array.from(form.pattern.matchAll(/\(\?<([A-Za-z_]\w*)>/g), (match) => match[1] ?? '');
  if (!names.includes('number')) throw bad('expected a group named number');
  const unknown = names.find((name) => !GROUPS.has(name));
  if (unknown !== undefined)
    throw bad(`expected only the groups ${[...GROUPS].join(', ')}; "${unknown}" is none of them`);
  if (/[*+}][^()]*\)\s*[*+{]/.test(form.pattern) || /\\[1-9]|\\k</.test(form.pattern)) {
    throw bad('expected no repeated group that repeats inside and no back-reference');
  }
  return regex;
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
