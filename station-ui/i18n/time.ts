import type { Language } from '#shared/words/language.ts';

const LOCALE: Readonly<Record<Language, string>> = { en: 'en-US', es: 'es-US' };
const DAY_MS = 24 * 3_600_000;

/** Whose clock is meant: an IANA zone, or the shop's when undefined. */
export interface Clock {
  readonly now: Date;
  readonly timeZone: string | undefined;
}

/** This screen's own until the server has said what the shop's is: a tablet may be set to any other. */
let shopZone: string | undefined;

export function rememberShopZone(timeZone: string | undefined): void {
  shopZone = timeZone;
}

/** A moment to the second, for what happened long ago: "Nov 26, 2026, 4:30:05 PM" on the shop's clock. */
export function exactTime(at: number | string, language: Language): string {
  const options = { dateStyle: 'medium', timeStyle: 'medium' } as const;
  return new Intl.DateTimeFormat(LOCALE[language], { ...options, timeZone: shopZone }).format(new Date(at));
}

/**
 * An ISO instant for people: "16:30" today, "Thu 16:30" in the days around, "Dec 24 16:30" beyond. A text that is no
 * instant comes back as it is.
 */
export function dayAndTime(instant: string, language: Language, clock: Clock): string {
  const at = new Date(instant);
  if (Number.isNaN(at.getTime())) return instant;
  const say = (date: Date, options: Intl.DateTimeFormatOptions, locale = LOCALE[language]): string =>
    new Intl.DateTimeFormat(locale, { ...options, timeZone: clock.timeZone ?? shopZone }).format(date);
  const time = say(at, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  const day = (date: Date): string => say(date, { year: 'numeric', month: '2-digit', day: '2-digit' }, 'en-CA');
  if (day(at) === day(clock.now)) return time;
  const near = Math.abs(at.getTime() - clock.now.getTime()) < 6 * DAY_MS;
  return `${say(at, near ? { weekday: 'short' } : { month: 'short', day: 'numeric' })} ${time}`;
}

/** A calendar day for people: "Fri, Nov 27". A text that is no day comes back as it is. */
export function dayWords(day: string, language: Language): string {
  const at = new Date(`${day}T12:00:00Z`);
  if (Number.isNaN(at.getTime())) return day;
  const options = { weekday: 'short', month: 'short', day: 'numeric', timeZone: 'UTC' } as const;
  return new Intl.DateTimeFormat(LOCALE[language], options).format(at);
}

/** The same in both languages: "48 s", "2 min 12 s". */
export function minutesAndSeconds(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  return minutes === 0 ? `${String(seconds)} s` : `${String(minutes)} min ${String(seconds % 60)} s`;
}

/** The same in both languages: "45 min", "3 h 5 min", "2 d 4 h". */
export function span(minutes: number): string {
  if (minutes < 60) return `${String(minutes)} min`;
  const hours = Math.floor(minutes / 60);
  return hours < 48
    ? `${String(hours)} h ${String(minutes % 60)} min`
    : `${String(Math.floor(hours / 24))} d ${String(hours % 24)} h`;
}
