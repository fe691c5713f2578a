/** Earlier versions of the shop's files: every one of so many days, then the last one of each of so many weeks. */
export const VERSIONS_KEPT = { days: 30, weeks: 52 } as const;
