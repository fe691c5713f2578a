import { join } from 'node:path';
import type { DayBench } from '#shared/wire/day.ts';
import type { AddressInfo } from 'node:net';
import type { Express } from 'express';
import type { Logger } from 'pino';
import { Server as SocketServer, type Socket } from 'socket.io';
import { Access } from './access/access.ts';
import { followShopFiles } from './audit/follow-shop-files.ts';
import { Doors } from './access/doors.ts';
import { Entry } from './access/entry.ts';
import { NetworkListener, type Trust } from './network/listener.ts';
import { networkAtStart, reachOf } from './network/reach.ts';
import { mayOpenSocket } from './access/front-door.ts';
import { guardSockets } from './access/guard-sockets.ts';
import { IncomingFolder } from './office/incoming/incoming-folder.ts';
import { UploadFolder } from './office/upload-folder.ts';
import { ImportsUnderWay } from './office/imports-under-way.ts';
import { resumeImports } from './office/import-store.ts';
import { seedDemo } from './office/demo.ts';
import { backupFolder, BackupDesk } from './backup/backup-desk.ts';
import { lookOverStore } from './backup/look-over.ts';
import { FolderWatch } from './office/settings/folder-watch.ts';
import { SettingsDesk } from './office/settings/settings-desk.ts';
import { createApp } from './http/app.ts';
import { pagesVersion } from './http/app-manifest.ts';
import { OfficeFeed } from './realtime/office-namespace.ts';
import { serveBenches } from './realtime/bench-namespace.ts';
import { serveScreenScales } from './realtime/scale-namespace.ts';
import { Station } from './runs/station.ts';
import { LabelDesk } from './labels/label-desk.ts';
import { PLANS_AHEAD, PlannerThread } from './planning/planner.ts';
import { BenchQueue } from './queue/bench-queue.ts';
import { OrderQueue } from './queue/order-queue.ts';
import { QueueWatch } from './queue/queue-watch.ts';
import { systemClock, type Clock } from './clock.ts';
import { collectFrom } from './metrics/collect.ts';
import { Health } from './metrics/health.ts';
import { Metrics } from './metrics/metrics.ts';
import { OwedBytes } from './privacy/owed-bytes.ts';
import { PhotoFiles } from './proof/photo-files.ts';
import { sweepOrphans } from './proof/photo-retention.ts';
import { allKept } from './retention/all-kept.ts';
import type { LogFiles } from './log-files.ts';
import { Retention } from './retention/retention.ts';
import type { Settings } from './settings.ts';
import { Guide } from './first-run/guide.ts';
import { GuideBook } from './first-run/guide-book.ts';
import { beginShop, hasStandInPrices, isEmptyFolder } from './first-run/new-shop.ts';
import { turnsOf } from './store/commit-group.ts';
import { holdFolder } from './store/lock.ts';
import { ShopHolder } from './shop-holder.ts';
import { openShopStore, type Store } from './store/open.ts';
import { releaseUnbegun } from './store/orders.ts';
import { firstOfServers } from './servers/first-of-servers.ts';
import { OtherServers } from './servers/other-servers.ts';
import { OwnApp, type PassedOn } from './servers/own-app.ts';
import { addressOf } from './servers/address-of.ts';
import { ShopServers } from './servers/shop-servers.ts';
import { Synthesiser } from '#drivers/speech/synthesiser.ts';
import { Manners } from './speech/manners.ts';
import { Speech } from './speech/speech.ts';
import { EnrolmentBook } from './voice/enrolment-book.ts';
import { RecordedSet } from './voice/recorded-set.ts';
import { Listener } from '#drivers/voice/listener.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';

/** A running server. */
export interface Running {
  readonly port: number;
  /** what is listened on */
  readonly host: string;
  readonly shop: Shop;
  readonly store: Store;
  readonly stations: ReadonlyMap<string, Station>;
  /** every route, and every namespace of sockets */
  readonly app: Express;
  readonly io: SocketServer;
  readonly access: Access;
  readonly entry: Entry;
  /** what tablets need to trust the server; null where only this computer can reach it */
  readonly trust: Trust | null;
  readonly retention: Retention;
  stop(): Promise<void>;
}

export interface ServerParts {
  readonly settings: Settings;
  /** folder of the built pages */
  readonly pages: string;
  /** the product's own config folder, which new shops are begun from */
  readonly templates: string;
  readonly log: Logger;
  /** where the log lies, unless it goes elsewhere */
  readonly logFiles?: LogFiles;
  readonly clock?: Clock;
}

/**
 * Builds the server from its parts and starts it.
 * @throws ConfigError, StoreError, or the system's error when the port is taken
 */
export async function startServer(parts: ServerParts): Promise<Running> {
  const { settings, clock = systemClock } = parts;
  if (isEmptyFolder(settings.config)) beginShop(settings.config, parts.templates);
  const shops = new ShopHolder(settings.config);
  const folder = holdFolder(settings.data);
  try {
    const guideBook = new GuideBook(settings.data);
    if (guideBook.isNew && hasStandInPrices(settings.config)) guideBook.begin();
    return await startHolding({ ...parts, clock, shops, guideBook, release: () => folder.release() });
  } catch (error) {
    folder.release();
    throw error;
  }
}

interface HoldingParts extends ServerParts {
  readonly clock: Clock;
  readonly shops: ShopHolder;
  readonly guideBook: GuideBook;
  /** lets another server have the data folder */
  readonly release: () => void;
}

async function startHolding({
  settings,
  pages,
  templates,
  log,
  logFiles,
  clock,
  shops,
  guideBook,
  release,
}: HoldingParts): Promise<Running> {
  const shop = shops.current;
  if (settings.database === null) lookOverStore(settings.data, backupFolder(settings.data, shop));
  const store = await openShopStore(settings);
  const resume = async () => {
    const resumed = await resumeImports(store);
    if (resumed > 0) log.warn({ resumed }, 'an import that was under way when a server stopped was stored to its end');
  };
  await firstOfServers(store, async () => {
    await resume();
    await seedDemo(settings.config, shop, store, clock);
  });
  const reach = reachOf(settings, shop);
  const { open, names } = reach;
  const access = new Access({ store, shops, clock, names, open, secure: open });
  await followShopFiles({ store, shops, clock, log });
  const doors = new Doors(access, log);
  const entry = new Entry(access, () => doors.lookAgain());
  const planner = new PlannerThread(() => shops.current);
  const plannerAhead = new PlannerThread(() => shops.current, PLANS_AHEAD);
  const speech = new Speech({
    synthesiser: new Synthesiser(),
    folder: join(settings.data, 'speech'),
    onTrouble: (error) => log.warn({ error }, 'speaking'),
  });
  const manners = new Manners({ store, shops, clock, speech });
  const stations = new Map<string, Station>();
  const metrics = new Metrics();
  const labels = new LabelDesk({ store, shops, clock, log, onNews: (bench) => newsOfLabel(bench) });
  const newsOfLabel = (bench: string) => {
    const station = stations.get(bench);
    if (station === undefined) others?.labelNews(bench);
    else station.labels.news();
  };
  const queue = new OrderQueue({ shop: () => shops.current, clock, planner: plannerAhead });
  let benchesElsewhere: () => readonly DayBench[] = () => [];
  const benchQueue = new BenchQueue({
    ...{ store, shop: () => shops.current, clock, queue, stations },
    elsewhere: () => benchesElsewhere(),
  });
  const onTakenOver = (from: string) => void stations.get(from)?.beat();
  const openUnbegun = async (of: readonly string[] | null) => {
    const released = await releaseUnbegun(store, clock.now(), of);
    if (released.length > 0) log.warn({ orders: released }, 'orders that were claimed but not begun are open again');
  };
  const stationOf = (bench: BenchConfig) =>
    new Station({
      store,
      shops,
      bench,
      clock,
      log,
      metrics,
      planner,
      manners,
      queue,
      benchQueue,
      labels,
      onTakenOver,
      door: doors,
    });
  shops.onChange(() => {
    for (const station of stations.values()) station.publish();
    // Somebody's role may be another, or somebody works here no more.
    void doors.lookAgain();
  });
  const settingsDesk = new SettingsDesk({
    ...{ store, shops, clock, stations },
    networkAtStart: (next) => networkAtStart(reach, settings, next),
  });
  const listener = new Listener({ onTrouble: (message) => log.warn({ message }, 'listening') });
  const recorded = new RecordedSet(settings.data);
  const enrolments = await EnrolmentBook.open(store);
  const imports = new ImportsUnderWay();
  const uploads = new UploadFolder(settings.data);
  const incoming = new IncomingFolder({
    store,
    shops,
    clock,
    log,
    imports,
    uploads,
    data: settings.data,
    onStored: async () => {
      await labels.sendHeld();
      for (const station of stations.values()) station.publish();
    },
  });
  const backups = new BackupDesk({ data: settings.data, inFolder: settings.database === null, shops, clock, log });
  const photos = new PhotoFiles(join(settings.data, 'photos'));
  const orphans = await sweepOrphans({ store, files: photos });
  if (orphans > 0) log.warn({ orphans }, 'photos that nothing names were removed');
  const kept = allKept({ store, shops, photos, settingsDesk, incoming, logFiles: logFiles ?? null });
  const isPacking = () =>
    [...stations.values()].some(({ run }) => run.state.order !== null && run.state.step.at !== 'done');
  const retention = new Retention({ store, clock, log, isPacking, kept });
  const watchedFolder = () => incoming.folder;
  const owedBytes = new OwedBytes({ store, files: photos, watchedFolder, isPacking, clock, log });
  await firstOfServers(store, () => owedBytes.resume());
  let ready = false;
  const health = new Health({ store, stations, labels, ready: () => ready, clock, folder: settings.data });
  const app = createApp({
    store,
    access,
    entry,
    shops,
    settingsDesk,
    stations,
    planner,
    speech,
    listener,
    recorded,
    enrolments,
    labels,
    imports,
    uploads,
    incoming,
    backups,
    guide: new Guide({ store, shops, book: guideBook, templates, clock }),
    guideBook,
    photos,
    isPacking,
    metrics,
    health,
    data: settings.data,
    clock,
    log,
    pages,
    ready: () => ready,
    trust: () => network.trust,
    otherServers: () => otherServers(),
    ...(settings.database === null ? {} : { askOthers: async (asked: PassedOn) => (await others?.ask(asked)) ?? [] }),
  });
  const { port: wanted, data, trustPort = 0 } = settings;
  const parts = { app, host: reach.host, port: wanted, open, trustPort, data, names: access.names, clock, log };
  const network = await NetworkListener.of(parts);
  const { server: http } = network;
  const io = new SocketServer(http, {
    serveClient: false,
    maxHttpBufferSize: 1_000_000,
    pingInterval: 1000,
    pingTimeout: 1500,
    allowRequest: (request, answer) => answer(null, mayOpenSocket(request, access.names)),
  });
  const acted = (socket: Socket) => void doors.socketActed(socket);
  guardSockets(io, { whoFor: (request) => access.whoFor(request), clock, log, acted });
  const version = pagesVersion(pages) ?? 'unknown';
  collectFrom({ metrics, store, stations, listener, io, ready: () => ready, folder: settings.data, version });
  const servers =
    settings.database === null
      ? null
      : new ShopServers({
          store,
          log,
          benches: () => shops.current.benches.map(({ id }) => id),
          wants: settings.benches ?? null,
          begin: (bench) => beginBench(bench),
          end: async (bench) => {
            const station = stations.get(bench);
            stations.delete(bench);
            benches.detach(bench);
            await station?.stop();
          },
          isBusy: (bench) => stations.get(bench)?.run.state.order != null,
          onAlone: async () => {
            if (!imports.any) await resume();
          },
          onLost: () => giveUp('this server was silent for too long: its benches are served by another, and it stops'),
        });
  const otherServers = () => servers?.addresses ?? [];
  const ownApp = new OwnApp(app);
  const others =
    settings.database === null || servers === null
      ? null
      : new OtherServers({
          ...{ io, stations, log, database: settings.database, id: servers.id, shop: () => shops.current },
          onLabelNews: newsOfLabel,
          onAsked: (asked) => ownApp.answer(asked),
        });
  if (others !== null) benchesElsewhere = () => others.benches();
  const benches = serveBenches({
    io,
    stations,
    store,
    shops,
    listener,
    enrolments,
    log,
    photos,
    clock,
    ...(servers === null ? {} : { elsewhere: (bench: string) => servers.elsewhere(bench) }),
    doors,
    servers: otherServers,
    pages: () => pagesVersion(pages),
  });
  const feed = new OfficeFeed({
    ...{ io, store, shops, stations, clock, log },
    ...(others === null ? {} : { elsewhere: () => others.benches() }),
  });
  const beginBench = async (id: string) => {
    const bench = shops.current.benches.find((each) => each.id === id);
    if (bench === undefined) return;
    await openUnbegun([id]);
    const station = stationOf(bench);
    benches.attach(station);
    await station.start();
    stations.set(id, station);
  };
  serveScreenScales(io, stations);
  if (servers === null) {
    await openUnbegun(null);
    for (const bench of shop.benches) {
      const station = stationOf(bench);
      stations.set(bench.id, station);
      benches.attach(station);
    }
  }
  const watch = new QueueWatch({ store, queue, stations, imports, log });
  const folderWatch = new FolderWatch(settings.config, settingsDesk, log);
  const stop = async () => {
    ready = false;
    folderWatch.stop();
    await servers?.stop();
    await doors.stop();
    await feed.stop();
    await incoming.stop();
    await watch.stop();
    await labels.stop();
    await backups.stop();
    await retention.stop();
    await owedBytes.stop();
    health.stop();
    metrics.registry.clear();
    await Promise.all([...stations.values()].map((station) => station.stop()));
    benches.stop();
    await listener.stop();
    const closed = io.close();
    // A browser keeps its connections open, and a half-sent file would be waited for.
    http.closeAllConnections();
    await closed;
    await others?.stop();
    await network.stop();
    await Promise.all([planner.stop(), plannerAhead.stop()]);
    await servers?.leave();
    await store.destroy();
    release();
  };
  const giveUp = (why: string) => {
    log.fatal(why);
    process.exitCode = 1;
    void stop();
  };
  turnsOf(store)?.onLost(({ message }) => giveUp(`${message}: nothing more is stored, and the server stops`));
  try {
    await Promise.all([manners.load(), speech.probe()]);
    await doors.start(io, entry);
    // Before anybody can ask: an input that came while a bench is read would be taken for another moment than its own.
    if (servers === null) await Promise.all([...stations.values()].map((station) => station.start()));
    await network.listen();
    await servers?.join(settings.address ?? addressOf(http, reach));
  } catch (error) {
    await stop().catch(() => undefined);
    throw error;
  }
  labels.start();
  retention.start();
  owedBytes.start();
  incoming.start();
  ready = true;
  const { port } = http.address() as AddressInfo;
  return {
    port,
    host: reach.host,
    shop,
    store,
    stations,
    app,
    io,
    access,
    entry,
    trust: network.trust,
    retention,
    stop,
  };
}
