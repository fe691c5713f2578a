import type { Language } from '#shared/words/language.ts';

const LOCALE: Readonly<Record<Language, string>> = { en: 'en-US', es: 'es-US' };

/** An ISO instant in this screen's time zone: "16:30" today, "Thu 16:30" on another day. The text itself if it is none. */
export function dayAndTime(instant: string, language: Language, now: Date = new Date()): string {
  const at = new Date(instant);
  if (Number.isNaN(at.getTime())) return instant;
  const clock = at.toLocaleTimeString(LOCALE[language], { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  if (at.toDateString() === now.toDateString()) return clock;
  const near = Math.abs(at.getTime() - now.getTime()) < 6 * 24 * 3_600_000;
  const day = at.toLocaleDateString(LOCALE[language], near ? { weekday: 'short' } : { month: 'short', day: 'numeric' });
  return `${day} ${clock}`;
}
