import { gtin14 } from './gtin.ts';
import { parseOurCode } from './our-codes.ts';

/** As staff.yaml takes them: 3 to 32 signs of ASCII without blanks. */
const BADGE = /^[\x21-\x7e]{3,32}$/;
/** GS1 element strings, by the symbology identifiers that stand before them (ISO/IEC 15424). */
const ELEMENT_STRING = /^\](?:C1|e0|d2|Q3)/;

/**
 * Whether a code that a camera saw could be somebody's badge. What is surely another thing is left alone at a locked door: a
 * piece or a box that lies in sight must not count as a wrong try to sign in.
 */
export function mayBeBadge(text: string): boolean {
  return BADGE.test(text) && !ELEMENT_STRING.test(text) && parseOurCode(text) === null && gtin14(text) === null;
}
