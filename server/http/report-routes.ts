import { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { calendarDay } from '#server/calendar.ts';
import { report, reportCsv, type ReportWish } from '#server/office/reports/report.ts';
import { daysLater } from '#shared/rating/day.ts';
import { REPORT_BY } from '#shared/reports/report.ts';
import { LANGUAGES } from '#shared/words/language.ts';

const USUAL_DAYS = 28;
export const reportQuery = z.object({
  from: z.iso.date().optional(),
  to: z.iso.date().optional(),
  by: z.enum(REPORT_BY).optional(),
  language: z.enum(LANGUAGES).optional(),
});

/** Money and quality, from what is stored of finished parcels. */
export function reportRoutes({ store, shops, clock }: AppParts): Router {
  const routes = Router();
  const wished = (asked: unknown): ReportWish & { readonly language: (typeof LANGUAGES)[number] } => {
    const found = reportQuery.safeParse(asked);
    if (!found.success) throw new HttpError(400, 'bad-request', z.prettifyError(found.error));
    const to = found.data.to ?? calendarDay(clock.now(), shops.current.timeZone);
    const from = found.data.from ?? daysLater(to, 1 - USUAL_DAYS);
    if (from > to) throw new HttpError(400, 'bad-request', `from: expected a day up to ${to}, found ${from}`);
    return { from, to, by: found.data.by ?? 'day', language: found.data.language ?? 'en' };
  };
  routes.get('/report', async (request, response) => {
    response.json(await report(store, shops.current, wished(request.query)));
  });
  routes.get('/exports/report.csv', async (request, response) => {
    const wish = wished(request.query);
    const csv = reportCsv(await report(store, shops.current, wish), wish.language);
    response.attachment(`report-${wish.from}-${wish.to}-${wish.by}.csv`).type('text/csv').send(csv);
  });
  return routes;
}
