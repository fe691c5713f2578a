import type { MassUnit } from '#shared/units/mass.ts';
import { boundedFrames } from './bounded-frames.ts';
import type { DiscardReason, ScaleDecoder, ScaleFrame } from './frames.ts';
import { placesOf, poundsAndOunces, shownMass, unitNamed } from './number.ts';

const STX = 0x02;
const ETX = 0x03;
const LF = 0x0a;
const CR = 0x0d;
const LONGEST = 48;

/** `ST,GS,+  4.876kg`: status, gross or net, sign, number, unit; separated by commas or spaces. */
const WITH_STATUS =
  /^(?<status>ST|US|OL|UL)\s*[, ]\s*(?<weighed>GS|NT|TR|G|N|T)\s*[, ]\s*(?<sign>[+-]?) *(?<digits>\d+(?:\.\d+)?) *(?<unit>[A-Za-z]*) *$/;
/** `ST,GS,+ 1lb 3.5oz`, `  1 lb  3.5 oz GS`: both units at once. */
const POUNDS_AND_OUNCES =
  /^(?:(?<status>ST|US|OL|UL)\s*[, ]\s*(?<weighed>GS|NT|TR|G|N|T)\s*[, ])?\s*(?<sign>[+-]?) *(?<pounds>\d+) *(?:lbs?|LBS?) *(?<ounces>\d{1,2}(?:\.\d+)?) *(?:ozs?|OZS?)(?: +(?<after>GS|NT|GR|NET))? *$/;
/** `OL,GS,-------kg`, `OL`: no number to be had. */
const WITHOUT_NUMBER = /^(?<status>OL|UL)(?:\s*[, ]\s*(?:GS|NT|G|N)(?:\s*[, ][-+_^\s]*[A-Za-z]*)?)?\s*$/;
/** `   -0.02  GS`, `   4.876 kg NT`: number first, the unit may be missing, gross or net last. */
const NUMBER_FIRST =
  /^ *(?<sign>[+-]?) *(?<digits>\d+(?:\.\d+)?) *(?<unit>kg|g|gm|lbs?|ozs?|KG|G|GM|LBS?|OZS?|) +(?<weighed>GS|NT|GR|NET)(?: +(?<status>ST|US))? *$/;
/** `+  4.876 kg`: number and unit only. */
const NUMBER_AND_UNIT = /^ *(?<sign>[+-]?) *(?<digits>\d+(?:\.\d+)?) *(?<unit>[A-Za-z]+) *$/;

/**
 * Decoder for the continuous ASCII output of many indicators, in its common shapes (common practice, no source).
 *
 * These frames carry no checksum. Two things stand in for one. A frame without the status header counts only when its
 * beginning was seen, because the tail of "14.876 kg" is a well-formed "4.876 kg". And a frame of another shape (length,
 * decimals, unit) than the last good one counts only when a second of that shape follows: an indicator's fields have
 * fixed widths, so a lost byte shows as a shorter frame and a damaged unit as another unit.
 *
 * @param unitIfMissing the unit of frames that name none; without it such a frame is no weight
 */
export function continuousDecoder(unitIfMissing: MassUnit | null = null): ScaleDecoder {
  const cut = boundedFrames({ starts: [STX], ends: [CR, LF, ETX], longest: LONGEST });
  const usualShape = shapeCheck();
  return {
    push(chunk) {
      return cut(chunk).map((raw): ScaleFrame => {
        if (raw.kind === 'too-long') return { kind: 'discarded', why: 'too-long', bytes: raw.bytes };
        const frame = decodeLine(raw.bytes, raw.whole, unitIfMissing);
        if (frame.kind !== 'weight') return frame;
        if (usualShape(`${raw.bytes.length} ${frame.places} ${frame.unit}`)) return frame;
        return { kind: 'discarded', why: 'odd-shape', bytes: raw.bytes };
      });
    },
  };
}

/** True when a frame of this shape may be believed after the ones before it. */
function shapeCheck(): (shape: string) => boolean {
  let usual: string | null = null;
  let seenOnce: string | null = null;
  return (shape) => {
    if (usual === null || usual === shape || seenOnce === shape) {
      usual = shape;
      seenOnce = null;
      return true;
    }
    seenOnce = shape;
    return false;
  };
}

function decodeLine(bytes: Uint8Array, whole: boolean, unitIfMissing: MassUnit | null): ScaleFrame {
  const discard = (why: DiscardReason): ScaleFrame => ({ kind: 'discarded', why, bytes });
  if (bytes.some((byte) => byte < 0x20 || byte > 0x7e)) return discard('form');
  const line = String.fromCharCode(...bytes);

  const none = WITHOUT_NUMBER.exec(line)?.groups;
  if (none !== undefined) return { kind: 'no-weight', condition: none.status === 'OL' ? 'over' : 'under', says: line };

  const both = POUNDS_AND_OUNCES.exec(line)?.groups;
  const headed = WITH_STATUS.exec(line)?.groups ?? (both?.['status'] === undefined ? undefined : both);
  const found = headed ?? both ?? NUMBER_FIRST.exec(line)?.groups ?? NUMBER_AND_UNIT.exec(line)?.groups;
  if (found === undefined) return discard('form');
  if (headed === undefined && !whole) return discard('no-start');

  const { status, sign = '' } = found;
  const weighed = found['weighed'] ?? found['after'] ?? 'GS';
  const digits = found['digits'] ?? found['ounces'] ?? '';
  if (status === 'OL') return { kind: 'no-weight', condition: 'over', says: line };
  if (status === 'UL') return { kind: 'no-weight', condition: 'under', says: line };
  // A tare value is not what lies on the pan.
  if (weighed.startsWith('T')) return discard('form');
  const named = found.unit ?? '';
  const unit = both !== undefined ? 'oz' : named === '' ? unitIfMissing : unitNamed(named);
  if (unit === null) return discard('unit');
  const mass = both === undefined ? shownMass(sign, digits, unit) : poundsAndOunces(sign, both['pounds'] ?? '', digits);
  if (mass === null) return discard('number');
  return {
    kind: 'weight',
    mass,
    unit,
    places: placesOf(digits),
    stability: status === 'ST' ? 'still' : status === 'US' ? 'moving' : 'unknown',
    net: weighed.startsWith('N'),
  };
}
