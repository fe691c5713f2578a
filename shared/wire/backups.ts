/** A backup that was made and proven. */
export interface BackupRow {
  readonly path: string;
  /** epoch ms */
  readonly at: number;
  readonly orders: number;
  readonly parcels: number;
  /** beside the store */
  readonly files: number;
}

/** How the shop is backed up, and what there is. */
export interface BackupsView {
  readonly folder: string;
  /** the data folder */
  readonly data: string;
  /** hours from one to the next; null where none is made by itself */
  readonly every: number | null;
  /** false: the store lies in a database elsewhere, which is backed up there */
  readonly here: boolean;
  readonly running: boolean;
  /** the newest is much older than it should be, or there is none */
  readonly old: boolean;
  /** how the last try went wrong; null where it did not */
  readonly failed: { readonly at: number; readonly why: string } | null;
  /** the newest first */
  readonly backups: readonly BackupRow[];
}
