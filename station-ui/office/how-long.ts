import type { DevicesWords } from '../i18n/devices-words.ts';

/** A span in the largest unit that fits: "3 minutes". */
export function howLong(milliseconds: number, words: DevicesWords): string {
  const seconds = Math.max(0, Math.round(milliseconds / 1000));
  if (seconds < 90) return words.seconds(seconds);
  if (seconds < 90 * 60) return words.minutes(Math.round(seconds / 60));
  if (seconds < 36 * 3600) return words.hours(Math.round(seconds / 3600));
  return words.days(Math.round(seconds / 86_400));
}
