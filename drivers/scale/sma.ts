import type { Mass, MassUnit } from '#shared/units/mass.ts';
import { boundedFrames } from './bounded-frames.ts';
import type { DiscardReason, ScaleDecoder, ScaleFrame } from './frames.ts';
import { placesOf, poundsAndOunces, shownMass, unitNamed } from './number.ts';

const LF = 0x0a;
const CR = 0x0d;
const LONGEST = 80;

/**
 * Commands of SMA SCP-0499, levels 1 (W Z D A B and ESC) and 2; each is followed by CR. What each letter of level 2 asks
 * for is from memory. A scale that does not know one answers `?`.
 */
export const SMA_COMMANDS = {
  weigh: 'W\r',
  /** the weight once it is still */
  weighStill: 'P\r',
  /** with finer digits than the display's */
  weighFine: 'H\r',
  weighFineStill: 'Q\r',
  repeatFine: 'S\r',
  zero: 'Z\r',
  diagnostics: 'D\r',
  about: 'A\r',
  aboutNext: 'B\r',
  abort: '\x1b\r',
  repeat: 'R\r',
  tare: 'T\r',
  tellTare: 'M\r',
  clearTare: 'C\r',
  nextUnit: 'U\r',
} as const;

/** s r n m f, weight in 10 characters, unit in 3 (SMA SCP-0499, standard scale response). */
const RESPONSE =
  /^(?<status>[ ZOUEIT])(?<range>[0-9 ])(?<weighed>[GTNgtn])(?<motion>[M ])(?<reserved>.)(?<weight>[ \-0-9.:]{10})(?<unit>.{3})$/;
/** Answer to D: a letter for each part that failed, a space for each that is well (SMA SCP-0499, from memory). */
const DIAGNOSTICS = /^(?<ram>[R ])(?<eeprom>[E ])(?<calibration>[C ]) ?$/;
/** Answers to A and B: a field name of three characters and a colon (SMA SCP-0499, from memory). */
const ABOUT = /^[A-Z_]{3}:.*$/;
/** The unit and the form of a weight in whole pounds and ounces (from memory). */
const POUNDS_AND_OUNCES = 'l/o';
const LB_OZ = /^ *(?<sign>-?) *(?<pounds>\d+)[ :] ?(?<ounces>\d{1,2}(?:\.\d+)?)$/;
const NUMBER = /^ *(?<sign>-?) *(?<digits>\d+(?:\.\d+)?)$/;
const DASHES = '----------';

/** Decoder for the replies of a scale that speaks SMA SCP-0499: LF, the reply, CR. */
export function smaDecoder(): ScaleDecoder {
  const cut = boundedFrames({ starts: [LF], ends: [CR], longest: LONGEST });
  return {
    push(chunk) {
      return cut(chunk).map((raw): ScaleFrame => {
        if (raw.kind === 'too-long') return { kind: 'discarded', why: 'too-long', bytes: raw.bytes };
        if (!raw.whole) return { kind: 'discarded', why: 'no-start', bytes: raw.bytes };
        return decodeReply(raw.bytes);
      });
    },
  };
}

function decodeReply(bytes: Uint8Array): ScaleFrame {
  const discard = (why: DiscardReason): ScaleFrame => ({ kind: 'discarded', why, bytes });
  if (bytes.some((byte) => byte < 0x20 || byte > 0x7e)) return discard('form');
  const reply = String.fromCharCode(...bytes);
  if (reply === '?') return { kind: 'refused', why: 'unknown-command' };
  if (reply === '!') return { kind: 'refused', why: 'communication-error' };

  const diagnostics = DIAGNOSTICS.exec(reply)?.groups;
  if (diagnostics !== undefined) return { kind: 'diagnostics', faults: faultsOf(diagnostics) };
  if (ABOUT.test(reply)) return { kind: 'text', text: reply };

  const found = RESPONSE.exec(reply)?.groups;
  if (found === undefined) return discard('form');
  const { status = '', weighed = '', motion = '', weight = '' } = found;
  if (status === 'O') return { kind: 'no-weight', condition: 'over', says: reply };
  if (status === 'U') return { kind: 'no-weight', condition: 'under', says: reply };
  if (status === 'E' || status === 'I' || status === 'T') return { kind: 'no-weight', condition: 'fault', says: reply };
  if (weight === DASHES) return discard('number');
  const shown = weightIn(weight, (found.unit ?? '').replace(/[ _]/g, ''));
  if (typeof shown === 'string') return discard(shown);
  // A tare value is not what lies on the pan.
  if (weighed.toUpperCase() === 'T') return { kind: 'tare', ...shown };
  return {
    kind: 'weight',
    ...shown,
    stability: motion === 'M' ? 'moving' : 'still',
    net: weighed.toUpperCase() === 'N',
  };
}

/** The mass that the ten characters show in the named unit, or why they show none. */
function weightIn(
  weight: string,
  named: string,
): { readonly mass: Mass; readonly unit: MassUnit; readonly places: number } | DiscardReason {
  const both = named.toLowerCase() === POUNDS_AND_OUNCES;
  const unit = both ? 'oz' : unitNamed(named);
  if (unit === null) return 'unit';
  const number = (both ? LB_OZ : NUMBER).exec(weight)?.groups;
  if (number === undefined) return 'number';
  const { sign = '', pounds = '', ounces = '' } = number;
  const digits = both ? ounces : (number['digits'] ?? '');
  const mass = both ? poundsAndOunces(sign, pounds, ounces) : shownMass(sign, digits, unit);
  return mass === null ? 'number' : { mass, unit, places: placesOf(digits) };
}

function faultsOf(
  letters: Readonly<Record<string, string | undefined>>,
): readonly ('ram' | 'eeprom' | 'calibration')[] {
  return (['ram', 'eeprom', 'calibration'] as const).filter((part) => (letters[part] ?? ' ') !== ' ');
}
