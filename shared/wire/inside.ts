export const HEALTH_PARTS = ['store', 'disk', 'devices', 'prints', 'labels', 'loop'] as const;
export type HealthPartName = (typeof HEALTH_PARTS)[number];

export const HEALTH_REASONS = [
  'store-not-read',
  'store-not-written',
  'disk-nearly-full',
  'disk-not-read',
  'disk-not-written',
  'scale-away',
  'scanner-away',
  'printer-away',
  'label-printer-away',
  'prints-unsettled',
  'labels-not-sent',
  'loop-held-up',
] as const;
/** Why a part of the station is not well, as a code. */
export type HealthReason = (typeof HEALTH_REASONS)[number];

export interface HealthPart {
  readonly part: HealthPartName;
  readonly state: 'ok' | 'degraded';
  readonly reasons: readonly HealthReason[];
}

/** The server is ready once it answers with the status 200; a part that is not well does not change that. */
export interface HealthView {
  readonly ok: boolean;
  /** its name, for who may see the figures too; empty for others */
  readonly shop: string;
  readonly benches: number;
  readonly parts: readonly HealthPart[];
}

export const LOG_LEVELS = ['error', 'warn', 'info', 'debug', 'trace'] as const;
export type LogLevel = (typeof LOG_LEVELS)[number];
export interface LogLevelView {
  readonly level: LogLevel;
}

/**
 * HTTP contract:
 * GET /healthz -> HealthView
 * GET /metrics -> the figures in the Prometheus text format
 * GET /api/log-level -> LogLevelView; POST { level } -> LogLevelView, until the server is started anew
 * GET /api/diagnostics.zip -> what a helper far away needs to see, without a person's data
 */
