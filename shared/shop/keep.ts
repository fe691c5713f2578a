/** How long the station keeps what only grows; days are counted from when it was over. Null: for ever. */
export interface KeepSettings {
  /** every earlier version of the shop's files of so many days */
  readonly versionDays: number;
  /** then the last one of each week, of so many weeks */
  readonly versionWeeks: number;
  /** single scans, commands and readings of runs that ended; parcels, times and sums stay */
  readonly inputDays: number | null;
  /** slips and labels that were printed, as their bytes */
  readonly printDays: number | null;
  /** requests for labels that were answered or given up; numbers of labels stay with their parcels */
  readonly labelRequestDays: number | null;
  /** what was said of files of the watched folder */
  readonly incomingDays: number | null;
  /** the server's log */
  readonly logDays: number;
  /** and how large it may be; the oldest of it goes first */
  readonly logMegabytes: number;
  /** the record of who changed what */
  readonly changeDays: number | null;
}

export const KEEP_DEFAULTS: KeepSettings = {
  versionDays: 30,
  versionWeeks: 52,
  inputDays: null,
  printDays: null,
  labelRequestDays: null,
  incomingDays: null,
  changeDays: null,
  logDays: 90,
  logMegabytes: 100,
};
