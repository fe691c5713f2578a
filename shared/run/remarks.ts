import type { PlanRemarks } from './types.ts';
import type { OrderPlan } from '#shared/planning/types.ts';

export function remarksOn({ proven, lowerBound, promise }: OrderPlan): PlanRemarks {
  const { kept, ...promised } = promise ?? { kept: true };
  return {
    ...(proven || lowerBound === undefined ? {} : { leastCost: lowerBound }),
    ...(kept ? {} : { broken: promised }),
  };
}
