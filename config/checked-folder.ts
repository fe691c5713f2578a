import type { z } from 'zod';
import type { clothsSchema } from './schema/cloths.ts';
import type { containersSchema } from './schema/containers.ts';
import type { devicesFile } from './schema/devices.ts';
import type { garmentsSchema } from './schema/garments.ts';
import type { importsFile } from './schema/imports.ts';
import type { rateCardSchema } from './schema/rate-card.ts';
import type { peopleFile } from './schema/people.ts';
import type { recipesSchema } from './schema/recipes.ts';
import type { shopFile } from './schema/shop.ts';
import type { staffFile } from './schema/staff.ts';
import type { suppliesFile } from './schema/supplies.ts';
import type { SourceFile } from './source-file.ts';

/** Files that a shop may share with another one. */
export const SHARABLE_FILES = [
  'staff.yaml',
  'people.yaml',
  'devices.yaml',
  'supplies.yaml',
  'imports.yaml',
  'cloths.yaml',
  'recipes.yaml',
  'garments.yaml',
  'containers.yaml',
] as const;

/** A file of the folder, read and checked against its own schema. */
export interface Checked<Value> {
  readonly source: SourceFile;
  readonly value: Value;
}

/** Files of a config folder that passed their own schemas; those that did not are missing here. */
export interface CheckedFolder {
  readonly shop?: Checked<z.output<typeof shopFile>> | undefined;
  readonly staff?: Checked<z.output<typeof staffFile>> | undefined;
  /** a shop may do without it */
  readonly people?: Checked<z.output<typeof peopleFile>> | undefined;
  readonly devices?: Checked<z.output<typeof devicesFile>> | undefined;
  readonly supplies?: Checked<z.output<typeof suppliesFile>> | undefined;
  readonly imports?: Checked<z.output<typeof importsFile>> | undefined;
  readonly garments?: Checked<z.output<typeof garmentsSchema>> | undefined;
  readonly cloths?: Checked<z.output<typeof clothsSchema>> | undefined;
  readonly recipes?: Checked<z.output<typeof recipesSchema>> | undefined;
  readonly containers?: Checked<z.output<typeof containersSchema>> | undefined;
  readonly rateCards: readonly Checked<z.output<typeof rateCardSchema>>[];
  /** whether a rate card is missing above, since it did not pass */
  readonly cardsMissing: boolean;
}

/** A folder without problems. */
export type CompleteFolder = Pick<CheckedFolder, 'people' | 'cardsMissing'> & {
  readonly [File in Exclude<keyof CheckedFolder, 'people' | 'cardsMissing'>]-?: NonNullable<CheckedFolder[File]>;
};
