/** How often the shop's data is backed up by itself, and what is kept of it. */
export interface BackupSettings {
  /** hours from one to the next */
  readonly every: number;
  /** so many newest are kept, whenever they were made */
  readonly newest: number;
  /** of so many days, each day's last one */
  readonly days: number;
  /** of so many weeks, each week's last one */
  readonly weeks: number;
  /** where they lie; null for `backups` in the data folder */
  readonly folder: string | null;
}

/** What is not said in the shop's files. */
export const BACKUP_DEFAULTS: BackupSettings = { every: 12, newest: 4, days: 7, weeks: 5, folder: null };
