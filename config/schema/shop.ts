import { z } from 'zod';
import { WEEKDAYS, type Collection } from '#shared/hand-over/collections.ts';
import { BACKUP_DEFAULTS } from '#shared/shop/backups.ts';
import { LABEL_DEFAULTS, SIMULATED } from '#shared/labels/settings.ts';
import { PLAIN_SHIPMENTS, SHIPMENT_FIELDS, TARIFF_NUMBER } from '#shared/shipments/fields.ts';
import { DEFAULT_KEEP_DAYS } from '#shared/proof/types.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { ASKS_FIRST } from '#shared/run/command-rules.ts';
import { LENGTH_UNITS } from '#shared/units/length.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import { network } from './network.ts';
import { id, localised } from './quantities.ts';
import { writtenAs } from './written-as.ts';

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

/** "16:30" */
export const clockTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'expected a time of day such as "16:30"')
  .register(writtenAs, { as: 'time' });

/** "4.10": an amount in the shop's currency. */
export const amount = z
  .string()
  .regex(/^\d+(\.\d{1,2})?$/, 'expected an amount such as "4.10", in quotes')
  .register(writtenAs, { as: 'money' });

/** A secret may travel in plain sight only inside this computer. */
function isSafeAddress(text: string): boolean {
  if (text === SIMULATED) return true;
  if (!URL.canParse(text)) return false;
  const { protocol, hostname, username, password } = new URL(text);
  if (username !== '' || password !== '') return false;
  return protocol === 'https:' || (protocol === 'http:' && ['localhost', '127.0.0.1', '[::1]'].includes(hostname));
}

const keptDays = z.int().min(30).max(36_500).exactOptional();

const seconds = (most: number) => z.number().min(0.1).max(most);

const labels = z
  .strictObject({
    url: z
      .string()
      .refine(
        isSafeAddress,
        'expected simulated, or an address that begins with https:// (http:// only on this computer), without a name or password in it',
      ),
    secret: z
      .union([
        z.strictObject({
          variable: z.string().regex(/^[A-Z_][A-Z0-9_]*$/, 'expected the name of an environment variable'),
        }),
        z.strictObject({ file: z.string().min(1) }),
      ])
      .optional(),
    timeoutSeconds: seconds(120).default(LABEL_DEFAULTS.timeoutSeconds),
    attempts: z.int().min(1).max(100).default(LABEL_DEFAULTS.attempts),
    firstRetrySeconds: seconds(3600).default(LABEL_DEFAULTS.firstRetrySeconds),
    longestRetrySeconds: seconds(86_400).default(LABEL_DEFAULTS.longestRetrySeconds),
    patienceSeconds: seconds(600).default(LABEL_DEFAULTS.patienceSeconds),
  })
  .refine(({ url, secret }) => url === SIMULATED || secret !== undefined, {
    path: ['secret'],
    message: 'expected where the secret is read: { variable: NAME } or { file: PATH }',
  })
  .refine(({ firstRetrySeconds, longestRetrySeconds }) => firstRetrySeconds <= longestRetrySeconds, {
    path: ['longestRetrySeconds'],
    message: 'expected no less than firstRetrySeconds',
  });

/** shop.yaml */
export const shopFile = z.strictObject({
  name: z.string().min(1),
  currency: z.string().regex(/^[A-Z]{3}$/, 'expected a currency code of three capital letters (ISO 4217)'),
  timeZone: z.string().refine(isTimeZone, 'expected an IANA time zone such as America/Chicago'),
  language: z.enum(LANGUAGES),
  units: z.strictObject({
    mass: z.enum(MASS_UNITS),
    massPlaces: z.int().min(0).max(3),
    length: z.enum(LENGTH_UNITS),
  }),
  from: z.strictObject({
    postcode: z.string().min(1),
    country: z.string().regex(/^[A-Z]{2}$/, 'expected a country code of two capital letters (ISO 3166-1)'),
  }),
  address: z.array(z.string().min(1)).min(1),
  slip: z.strictObject({ thanks: localised, returns: localised }),
  labour: z.strictObject({ perHour: amount, repackSeconds: z.int().min(0) }),
  collections: z.array(
    z
      .strictObject({ carrier: id, at: clockTime, days: z.array(z.enum(WEEKDAYS)).min(1).optional() })
      .transform(({ days, ...rest }): Collection => (days === undefined ? rest : { ...rest, days })),
  ),
  keepScreenAwake: z.boolean().exactOptional(),
  unasked: z.array(z.enum(ASKS_FIRST)).exactOptional(),
  preferences: z
    .strictObject({
      wrapAbove: z.strictObject({ value: amount, wraps: z.array(id).min(1) }).optional(),
      doubleBagAbove: amount.optional(),
      promise: z.enum(['must', 'prefer']).optional(),
    })
    .optional(),
  /** the file for whoever makes labels: which columns it has, and what the customs are told */
  shipments: z
    .strictObject({
      columns: z
        .record(z.string().min(1), z.enum(SHIPMENT_FIELDS))
        .refine((all) => Object.keys(all).length > 0, 'expected at least one column')
        .default(PLAIN_SHIPMENTS.columns),
      origin: z
        .string()
        .regex(/^[A-Z]{2}$/, 'expected a country code of two capital letters (ISO 3166-1)')
        .optional(),
      hsCodes: z
        .record(id, z.string().regex(TARIFF_NUMBER, 'expected a tariff number such as "6203.42", in quotes'))
        .default({}),
    })
    .optional(),
  /** how often the data folder is backed up by itself, and how many are kept */
  backups: z
    .union([
      z.literal('none'),
      z.strictObject({
        every: z.number().min(0.25).max(168).default(BACKUP_DEFAULTS.every),
        newest: z.int().min(1).max(1000).default(BACKUP_DEFAULTS.newest),
        days: z.int().min(0).max(1000).default(BACKUP_DEFAULTS.days),
        weeks: z.int().min(0).max(1000).default(BACKUP_DEFAULTS.weeks),
        folder: z.string().min(1).nullable().default(null),
      }),
    ])
    .optional(),
  /** where labels are asked for when a parcel is weighed; nowhere without it */
  labels: labels.optional(),
  /** whether other computers reach the station; this one alone without it */
  network: network.exactOptional(),
  /** how long buyers' data are kept */
  privacy: z.strictObject({ buyersDays: z.int().min(1).max(36_500) }).exactOptional(),
  /** how long what only grows is kept; less than a month would take away what people still ask about */
  keep: z
    .strictObject({
      versionDays: z.int().min(7).max(3650).exactOptional(),
      versionWeeks: z.int().min(1).max(1000).exactOptional(),
      inputDays: keptDays,
      printDays: keptDays,
      labelRequestDays: keptDays,
      incomingDays: keptDays,
      changeDays: keptDays,
      logDays: z.int().min(1).max(3650).exactOptional(),
      logMegabytes: z.int().min(10).max(100_000).exactOptional(),
    })
    .exactOptional(),
  /** photos of what is packed, by the bench's screen; none without it */
  proof: z
    .strictObject({
      photos: z.union([z.enum(['off', 'always']), z.strictObject({ from: amount })], {
        error: "expected off, always, or a value of the order such as { from: '60.00' }",
      }),
      keepDays: z.int().min(1).max(3650).default(DEFAULT_KEEP_DAYS),
    })
    .optional(),
  /** files that lie elsewhere, each by its own name: a garments.yaml shared by two shops */
  sharedFiles: z.array(z.string().min(1)).optional(),
});

export type ShopFile = z.output<typeof shopFile>;
