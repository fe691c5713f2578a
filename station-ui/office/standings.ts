import type { PrintJobRow } from '#shared/wire/devices.ts';
import type { DeviceState } from '#shared/wire/views.ts';
import type { Standing } from '../components/shapes.ts';

export const DEVICE_STANDING: Readonly<Record<DeviceState, Standing>> = {
  working: 'well',
  attention: 'attention',
  silent: 'attention',
  lost: 'stop',
  faulty: 'stop',
};

export const JOB_STANDING: Readonly<Record<PrintJobRow['state'], Standing>> = {
  queued: 'waiting',
  sending: 'current',
  printed: 'well',
  failed: 'waiting',
  unknown: 'attention',
};
