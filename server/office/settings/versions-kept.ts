import { kept } from '#server/backup/thinning.ts';

/** How long earlier versions of the shop's files are kept. */
export interface VersionsKept {
  /** every one of so many days */
  readonly days: number;
  /** then the last one of each week, of so many weeks that have one */
  readonly weeks: number;
}

const DAY_MS = 86_400_000;

/** Ids of the versions that are no longer kept. A version counts by when it was replaced. */
export function versionsToRemove(
  versions: readonly { readonly id: string; readonly until: number }[],
  { days, weeks }: VersionsKept,
  now: number,
  timeZone: string,
): readonly string[] {
  const old = versions.filter(({ until }) => until < now - days * DAY_MS);
  const weekly = kept(
    old.map((version) => ({ ...version, at: version.until })),
    { newest: 0, days: 0, weeks },
    timeZone,
  );
  const stay = new Set([...weekly].map(({ id }) => id));
  return old.filter(({ id }) => !stay.has(id)).map(({ id }) => id);
}
