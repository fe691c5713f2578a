import type { Operation } from './operation.ts';
import { accessOperations } from './operations/access.ts';
import { deviceOperations } from './operations/devices.ts';
import { importSourceOperations } from './operations/import-sources.ts';
import { firstRunOperations } from './operations/first-run.ts';
import { incomingOperations } from './operations/incoming.ts';
import { insideOperations } from './operations/inside.ts';
import { orderOperations } from './operations/orders.ts';
import { parcelOperations } from './operations/parcels.ts';
import { priceOperations } from './operations/prices.ts';
import { reportOperations } from './operations/reports.ts';
import { settingsOperations } from './operations/settings.ts';
import { stationOperations } from './operations/station.ts';
import { voiceOperations } from './operations/voice.ts';

/** Every route that is no page. A test compares them with the router. */
export const OPERATIONS: readonly Operation[] = [
  ...stationOperations,
  ...accessOperations,
  ...firstRunOperations,
  ...orderOperations,
  ...incomingOperations,
  ...importSourceOperations,
  ...priceOperations,
  ...parcelOperations,
  ...reportOperations,
  ...deviceOperations,
  ...voiceOperations,
  ...insideOperations,
  ...settingsOperations,
];
