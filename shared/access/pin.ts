import type { Role } from './roles.ts';

export const PIN_PROBLEMS = ['not-digits', 'too-short', 'too-long', 'too-plain'] as const;
export type PinProblem = (typeof PIN_PROBLEMS)[number];

/** The owner's opens everything, and is entered on a keyboard of the office. */
const LEAST_DIGITS: Readonly<Record<Role, number>> = { packer: 4, supervisor: 4, owner: 6 };
export const MOST_DIGITS = 12;

/** What is wrong with a PIN that somebody chose; null when nothing is. */
export function pinProblem(pin: string, role: Role): PinProblem | null {
  if (!/^[0-9]*$/.test(pin)) return 'not-digits';
  if (pin.length < LEAST_DIGITS[role]) return 'too-short';
  if (pin.length > MOST_DIGITS) return 'too-long';
  return isPlain(pin) ? 'too-plain' : null;
}

/** The first ones that anybody tries: one digit again and again, digits in a row, a pair again and again. */
function isPlain(pin: string): boolean {
  const digits = Array.from(pin, Number);
  const steps = digits.slice(1).map((digit, at) => (digit - (digits[at] ?? 0) + 10) % 10);
  const repeats = digits.every((digit, at) => digit === digits[at % 2]);
  return repeats || steps.every((step) => step === steps[0]);
}
