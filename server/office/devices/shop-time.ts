/** "2026-11-25 16:30" on the shop's clock. */
export function shopDayAndTime(at: number, timeZone: string): string {
  const parts = new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short', timeStyle: 'short' });
  return parts.format(at);
}
