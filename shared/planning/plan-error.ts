import type { PlanRejection } from './types.ts';

export const PLAN_ERROR_CODES = [
  'no-pieces',
  'too-many-pieces',
  'unknown-piece',
  'unknown-kind',
  'nothing-fits',
  'no-rates',
  'took-too-long',
] as const;
export type PlanErrorCode = (typeof PLAN_ERROR_CODES)[number];

/** Before its code, the reason of an order that was set aside because there is no plan for it. */
export const UNPLANNED = 'unplanned:';

/** An order for which there is no plan. `whyNot` says what was held against every container. */
export class PlanError extends Error {
  override readonly name = 'PlanError';
  readonly code: PlanErrorCode;
  readonly whyNot: readonly PlanRejection[];

  constructor(code: PlanErrorCode, message: string, whyNot: readonly PlanRejection[] = []) {
    super(message);
    this.code = code;
    this.whyNot = whyNot;
  }
}

export function isPlanError(error: unknown, code?: PlanErrorCode): error is PlanError {
  return error instanceof PlanError && (code === undefined || error.code === code);
}
