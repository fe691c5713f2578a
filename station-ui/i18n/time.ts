import type { Language } from '#shared/words/language.ts';

const LOCALE: Readonly<Record<Language, string>> = { en: 'en-US', es: 'es-US' };
const DAY_MS = 24 * 3_600_000;
const OFFSET = /([+-])(\d\d):(\d\d)$/;

/**
 * An ISO instant for people: "16:30" today, "Thu 16:30" in the days around, "Dec 24, 16:30" beyond. An offset in the text
 * is the shop's own clock and is kept; "Z" means this screen's. A text that is no instant comes back as it is.
 */
export function dayAndTime(instant: string, language: Language, now: Date = new Date()): string {
  const at = new Date(instant);
  if (Number.isNaN(at.getTime())) return instant;
  const shift = offsetOf(instant, at);
  const [there, today] = [shifted(at, shift), shifted(now, shift)];
  const say = (options: Intl.DateTimeFormatOptions): string =>
    new Intl.DateTimeFormat(LOCALE[language], { ...options, timeZone: 'UTC' }).format(there);
  const clock = say({ hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  if (there.toISOString().slice(0, 10) === today.toISOString().slice(0, 10)) return clock;
  const near = Math.abs(there.getTime() - today.getTime()) < 6 * DAY_MS;
  return `${say(near ? { weekday: 'short' } : { month: 'short', day: 'numeric' })} ${clock}`;
}

/** Minutes east of UTC. */
function offsetOf(instant: string, at: Date): number {
  const match = OFFSET.exec(instant);
  if (match === null) return -at.getTimezoneOffset();
  return (match[1] === '-' ? -1 : 1) * (Number(match[2]) * 60 + Number(match[3]));
}

function shifted(at: Date, minutes: number): Date {
  return new Date(at.getTime() + minutes * 60_000);
}
