import { sql, type Kysely, type Migration } from 'kysely';
import { searchOfPostgres } from '#server/store/postgres/search-tables.ts';
import { dialectOf } from '#server/store/dialect.ts';

/**
 * What can be searched for: one entry for each order, buyer, piece and parcel's label, a full-text index of the words of each
 * kind by how these begin, without case and diacritics, and an index of the ends of codes. Triggers keep all of it.
 */
export const search: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    if (dialectOf(db) === 'postgres') return searchOfPostgres(db);
    const { schema } = db;
    await schema
      .createTable('search_entry')
      .addColumn('id', 'integer', (column) => column.primaryKey())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('ref', 'text', (column) => column.notNull())
      .addColumn('code', 'text', (column) => column.notNull())
      .addColumn('words', 'text', (column) => column.notNull())
      .addUniqueConstraint('search_entry_once', ['kind', 'ref'])
      .execute();
    await sql`create index search_entry_code on search_entry (kind, code collate nocase)`.execute(db);
    await sql`create index search_entry_end on search_entry (kind, substr(code, -4) collate nocase)`.execute(db);
    await sql`create index shop_order_buyer on shop_order (json_extract(body, '$.buyer'))`.execute(db);
    await sql`create index shop_order_ship_by on shop_order (ship_by, id)`.execute(db);
    await sql`create index shop_order_number on shop_order (length(id), id)`.execute(db);
    // An index for each kind: within a common one, what only another kind has is looked for long.
    for (const kind of WORDED) {
      await sql`create virtual table ${sql.raw(`search_${kind}`)} using fts5(code, words, content='search_entry',
        content_rowid='id', tokenize='unicode61 remove_diacritics 2', prefix='1 2 3 4 5 6')`.execute(db);
    }
    await fill(db);
    for (const [name, when, what] of TRIGGERS) {
      await sql`create trigger ${sql.raw(name)} ${sql.raw(when)} begin ${sql.raw(what)} end`.execute(db);
    }
  },
};

/** The first id of each kind, less one. */
const BASE = { order: 2 ** 40, parcel: 2 * 2 ** 40, piece: 3 * 2 ** 40, buyer: 4 * 2 ** 40 } as const;
type Kind = keyof typeof BASE;
/** A parcel's label is one code, found by its beginning and end without them. */
const WORDED = ['order', 'piece', 'buyer'] as const;

/** Buyer, postcode and address (a JSON list), a line each. */
const orderWords = (body: string): string =>
  `coalesce(json_extract(${body}, '$.buyer'), '') || char(10) || coalesce(json_extract(${body}, '$.to.postcode'), '') ||
   char(10) || coalesce(json_extract(${body}, '$.address'), '')`;
const titleOf = (body: string): string => `coalesce(json_extract(${body}, '$.title'), '')`;
const buyerOf = (body: string): string => `json_extract(${body}, '$.buyer')`;

/** What was stored before, in the order in which it came. */
async function fill(db: Kysely<unknown>): Promise<void> {
  const into = (kind: Kind, ref: string, code: string, words: string, from: string, order: string, after = 0): string =>
    `insert into search_entry (id, kind, ref, code, words)
     select ${String(BASE[kind] + after)} + row_number() over (order by ${order}), '${kind}', ${ref}, ${code}, ${words} from ${from}`;
  const came = 'coalesce(came_at, changed_at), id';
  const statements = [
    into('order', 'id', 'id', orderWords('body'), 'shop_order', came),
    into('parcel', 'cast(id as text)', 'label', `''`, 'parcel where label is not null', 'id'),
    into('parcel', `'asked-' || id`, 'tracking', `''`, 'label_request where tracking is not null', 'id', 2 ** 39),
    into('piece', 'sku', 'sku', titleOf('body'), 'piece', 'rowid'),
    into(
      'buyer',
      'buyer',
      `''`,
      'buyer',
      `(select ${buyerOf('body')} as buyer, max(coalesce(came_at, changed_at)) as came from shop_order group by 1)
       where buyer <> ''`,
      'came, buyer',
    ),
    ...WORDED.map(
      (kind) =>
        `insert into search_${kind} (rowid, code, words) select id, code, words from search_entry where kind = '${kind}'`,
    ),
  ];
  for (const statement of statements) await sql.raw(statement).execute(db);
}

/** One more entry, where there is none of it yet. */
const add = (kind: Kind, ref: string, code: string, words: string, when = '1'): string => {
  const base = String(BASE[kind]);
  const last = `(select id from search_entry where id > ${base} and id < ${base} + ${String(2 ** 40)} order by id desc limit 1)`;
  return `insert into search_entry (id, kind, ref, code, words)
    select coalesce(${last}, ${base}) + 1, '${kind}', ${ref}, ${code}, ${words} where ${when}
    and not exists (select 1 from search_entry where kind = '${kind}' and ref = ${ref});`;
};
const remove = (kind: Kind, ref: string): string => `delete from search_entry where kind = '${kind}' and ref = ${ref};`;
const reword = (kind: Kind, ref: string, words: string): string =>
  `update search_entry set words = ${words} where kind = '${kind}' and ref = ${ref} and words is not ${words};`;

const ADD_BUYER = add('buyer', buyerOf('new.body'), `''`, buyerOf('new.body'), `${buyerOf('new.body')} <> ''`);
const REMOVE_BUYER = `delete from search_entry where kind = 'buyer' and ref = ${buyerOf('old.body')}
  and not exists (select 1 from shop_order where json_extract(body, '$.buyer') = ${buyerOf('old.body')});`;
const ADD_LABEL = add('parcel', 'cast(new.id as text)', 'new.label', `''`, 'new.label is not null');
const REMOVE_LABEL = remove('parcel', 'cast(old.id as text)');
/** A number that was answered for a label, before and after the label is on its parcel. */
const ADD_TRACKING = add('parcel', `'asked-' || new.id`, 'new.tracking', `''`, 'new.tracking is not null');
const REMOVE_TRACKING = remove('parcel', `'asked-' || old.id`);
const INDEX = WORDED.map(
  (kind) =>
    `insert into search_${kind} (rowid, code, words) select new.id, new.code, new.words where new.kind = '${kind}';`,
).join(' ');
const UNINDEX = WORDED.map(
  (kind) => `insert into search_${kind} (search_${kind}, rowid, code, words)
    select 'delete', old.id, old.code, old.words where old.kind = '${kind}';`,
).join(' ');

const TRIGGERS: readonly (readonly [name: string, when: string, what: string])[] = [
  ['search_entry_added', 'after insert on search_entry', INDEX],
  ['search_entry_gone', 'after delete on search_entry', UNINDEX],
  ['search_entry_changed', 'after update on search_entry', `${UNINDEX} ${INDEX}`],
  [
    'search_order_added',
    'after insert on shop_order',
    `${add('order', 'new.id', 'new.id', orderWords('new.body'))} ${ADD_BUYER}`,
  ],
  [
    'search_order_changed',
    'after update of body on shop_order when old.body is not new.body',
    `${reword('order', 'new.id', orderWords('new.body'))} ${REMOVE_BUYER} ${ADD_BUYER}`,
  ],
  ['search_order_gone', 'after delete on shop_order', `${remove('order', 'old.id')} ${REMOVE_BUYER}`],
  ['search_piece_added', 'after insert on piece', add('piece', 'new.sku', 'new.sku', titleOf('new.body'))],
  ['search_piece_changed', 'after update of body on piece', reword('piece', 'new.sku', titleOf('new.body'))],
  ['search_piece_gone', 'after delete on piece', remove('piece', 'old.sku')],
  ['search_label_added', 'after insert on parcel', ADD_LABEL],
  ['search_label_changed', 'after update of label on parcel', `${REMOVE_LABEL} ${ADD_LABEL}`],
  ['search_label_gone', 'after delete on parcel', REMOVE_LABEL],
  ['search_tracking_added', 'after insert on label_request', ADD_TRACKING],
  ['search_tracking_changed', 'after update of tracking on label_request', `${REMOVE_TRACKING} ${ADD_TRACKING}`],
  ['search_tracking_gone', 'after delete on label_request', REMOVE_TRACKING],
];
