import { existsSync } from 'node:fs';
import { join } from 'node:path';
import compression from 'compression';
import express, { type Express, type NextFunction, type Request, type Response } from 'express';
import type { Logger } from 'pino';
import { appManifest } from './app-manifest.ts';
import { apiRoutes } from './api-routes.ts';
import { HttpError } from './http-error.ts';
import { elsewhereRoutes } from './elsewhere-routes.ts';
import { exportRoutes } from './export-routes.ts';
import { deviceRoutes } from './device-routes.ts';
import { scaleSettingRoutes } from './scale-setting-routes.ts';
import { firstRunRoutes } from './first-run-routes.ts';
import { fitsRoutes } from './fits-routes.ts';
import { handOverRoutes } from './hand-over-routes.ts';
import { backupRoutes } from './backup-routes.ts';
import { auditRoutes } from './audit-routes.ts';
import { addressRoutes } from './address-routes.ts';
import { cancelRoutes } from './cancel-routes.ts';
import { combiningRoutes } from './combining-routes.ts';
import { intakeRoutes } from './intake-routes.ts';
import { incomingRoutes } from './incoming-routes.ts';
import { partialRoutes } from './partial-routes.ts';
import { importSourceRoutes } from './import-source-routes.ts';
import { insideRoutes, watchRoutes } from './inside-routes.ts';
import { importRoutes } from './import-routes.ts';
import { labelRoutes } from './label-routes.ts';
import { learnedRoutes } from './learned-routes.ts';
import { officeRoutes } from './office-routes.ts';
import { settingsRoutes } from './settings-routes.ts';
import { speechRoutes } from './speech-routes.ts';
import { paperRoutes } from './paper-routes.ts';
import { peopleRoutes } from './people-routes.ts';
import { privacyRoutes } from './privacy-routes.ts';
import { photoRoutes } from './photo-routes.ts';
import { rateRoutes } from './rate-routes.ts';
import { reportRoutes } from './report-routes.ts';
import { supplyRoutes } from './supply-routes.ts';
import type { Speech } from '#server/speech/speech.ts';
import { voiceRoutes } from './voice-routes.ts';
import type { Access } from '#server/access/access.ts';
import type { Trust } from '#server/network/listener.ts';
import type { Entry } from '#server/access/entry.ts';
import { accessRoutes } from './access-routes.ts';
import { frontDoor } from '#server/access/front-door.ts';
import { recordRoutes } from '#server/audit/record-routes.ts';
import { guardRoutes } from '#server/access/guard-routes.ts';
import { strictHeaders } from '#server/access/headers.ts';
import type { LabelDesk } from '#server/labels/label-desk.ts';
import type { BackupDesk } from '#server/backup/backup-desk.ts';
import type { Guide } from '#server/first-run/guide.ts';
import type { GuideBook } from '#server/first-run/guide-book.ts';
import type { Clock } from '#server/clock.ts';
import type { UploadFolder } from '#server/office/upload-folder.ts';
import type { ImportsUnderWay } from '#server/office/imports-under-way.ts';
import type { Health } from '#server/metrics/health.ts';
import type { Metrics } from '#server/metrics/metrics.ts';
import type { PhotoFiles } from '#server/proof/photo-files.ts';
import type { IncomingFolder } from '#server/office/incoming/incoming-folder.ts';
import type { Answered, PassedOn } from '#server/servers/own-app.ts';
import type { Planner } from '#server/planning/planner.ts';
import type { Station } from '#server/runs/station.ts';
import type { Store } from '#server/store/open.ts';
import type { EnrolmentBook } from '#server/voice/enrolment-book.ts';
import type { RecordedSet } from '#server/voice/recorded-set.ts';
import type { Listener } from '#drivers/voice/listener.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { SettingsDesk } from '#server/office/settings/settings-desk.ts';

export interface AppParts {
  readonly store: Store;
  readonly access: Access;
  readonly entry: Entry;
  readonly shops: ShopHolder;
  readonly settingsDesk: SettingsDesk;
  readonly stations: ReadonlyMap<string, Station>;
  readonly planner: Pick<Planner, 'fits' | 'plan'>;
  readonly speech: Speech;
  readonly listener: Pick<Listener, 'tryOut' | 'probe'>;
  readonly recorded: RecordedSet;
  readonly enrolments: EnrolmentBook;
  readonly labels: LabelDesk;
  readonly imports: ImportsUnderWay;
  readonly uploads: UploadFolder;
  readonly incoming: Pick<IncomingFolder, 'view' | 'folder'>;
  readonly backups: Pick<BackupDesk, 'view' | 'make'>;
  readonly guide: Guide;
  readonly guideBook: GuideBook;
  readonly photos: PhotoFiles;
  /** some bench has an order in hand */
  readonly isPacking: () => boolean;
  readonly metrics: Metrics;
  readonly health: Health;
  /** the data folder */
  readonly data: string;
  readonly clock: Clock;
  readonly log: Logger;
  /** folder of the built pages */
  readonly pages: string;
  readonly ready: () => boolean;
  /** what tablets need to trust this server; null where only its own computer can reach it */
  readonly trust: () => Trust | null;
  /** where the other servers of the shop have their pages, as http://host:port */
  readonly otherServers?: () => readonly string[];
  /** what is asked of benches that other servers of the shop have; absent where there is one server */
  readonly askOthers?: (asked: PassedOn) => Promise<readonly Answered[]>;
}

/** Every HTTP route: health, the office's data, and the two pages. */
export function createApp(parts: AppParts): Express {
  const app = express();
  app.disable('x-powered-by');
  app.use(...strictHeaders(parts.otherServers), frontDoor(parts.access.names));
  app.use(compression());
  app.use(...guardRoutes({ whoFor: (request) => parts.access.whoFor(request), log: parts.log }));
  app.use(recordRoutes(parts));
  app.use(watchRoutes(parts));
  app.use(
    '/api',
    ...elsewhereRoutes(parts),
    apiRoutes(parts),
    firstRunRoutes(parts),
    importRoutes(parts),
    importSourceRoutes(parts),
    partialRoutes(parts),
    incomingRoutes(parts),
    addressRoutes(parts),
    combiningRoutes(parts),
    intakeRoutes(parts),
    cancelRoutes(parts),
    exportRoutes(parts),
    officeRoutes(parts),
    rateRoutes(parts),
    settingsRoutes(parts),
    deviceRoutes(parts),
    paperRoutes(parts),
    scaleSettingRoutes(parts),
    fitsRoutes(parts),
    learnedRoutes(parts),
    peopleRoutes(parts),
    supplyRoutes(parts),
    reportRoutes(parts),
    handOverRoutes(parts),
    labelRoutes(parts),
    speechRoutes(parts),
    voiceRoutes(parts),
    accessRoutes(parts),
    backupRoutes(parts),
    photoRoutes(parts),
    auditRoutes(parts),
    insideRoutes(parts),
    privacyRoutes(parts),
  );
  app.use('/api', (request) => {
    throw new HttpError(404, 'not-found', `There is nothing at ${request.method} /api${request.path}.`);
  });
  app.use(appManifest(parts));
  servePages(app, parts.pages);
  app.use((error: unknown, request: Request, response: Response, next: NextFunction) => {
    if (response.headersSent) {
      next(error);
      return;
    }
    const { status, code, message, problems } = HttpError.from(error);
    if (status >= 500) parts.log.error({ error, path: request.path }, 'a request failed');
    response.status(status).json({ error: code, message, ...(problems === undefined ? {} : { problems }) });
  });
  return app;
}

function servePages(app: Express, pages: string): void {
  app.get('/', (_request, response) => response.redirect('/office'));
  for (const page of ['office', 'bench']) {
    app.get([`/${page}`, `/${page}/*rest`], (_request, response, next) => {
      const file = join(pages, `${page}.html`);
      if (existsSync(file)) response.sendFile(file, { headers: { 'Cache-Control': 'no-cache' } });
      else next();
    });
  }
  // The worker that keeps the bench's page must never be an old one.
  app.get('/bench-worker.js', (_request, response, next) => {
    response.set('Cache-Control', 'no-cache');
    next();
  });
  app.use(express.static(pages, { index: false, maxAge: '1h' }));
}
