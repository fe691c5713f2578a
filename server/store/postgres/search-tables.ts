import { sql, type Kysely } from 'kysely';

const KINDS = ['order', 'parcel', 'piece', 'buyer'] as const;
/** A parcel's label is one code, found by its beginning and end without words. */
const WORDED = ['order', 'piece', 'buyer'] as const;

/**
 * The search of PostgreSQL: the same entries by the same rules as in SQLite (`012-search.ts`), their words as a tsvector
 * without case and diacritics, code and words 100 places apart, so that no phrase goes across.
 */
export async function searchOfPostgres(db: Kysely<unknown>): Promise<void> {
  const run = (statement: string): Promise<unknown> => sql.raw(statement).execute(db);
  await db.schema
    .createTable('search_entry')
    .addColumn('id', 'integer', (column) => column.primaryKey())
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('ref', 'text', (column) => column.notNull())
    .addColumn('code', 'text', (column) => column.notNull())
    .addColumn('words', 'text', (column) => column.notNull())
    .addUniqueConstraint('search_entry_once', ['kind', 'ref'])
    .execute();
  for (const statement of FUNCTIONS) await run(statement);
  await run('create index search_entry_code on search_entry (kind, lower(code))');
  await run('create index search_entry_end on search_entry (kind, right(lower(code), 4))');
  await run(`create index shop_order_buyer on shop_order (json_extract(body, '$.buyer'))`);
  await run('create index shop_order_ship_by on shop_order (ship_by, id)');
  await run('create index shop_order_number on shop_order (length(id), id)');
  for (const kind of WORDED) {
    await run(
      `create index search_${kind} on search_entry using gin (search_vector(code, words)) where kind = '${kind}'`,
    );
  }
  // Entries of a kind are numbered as they come; two transactions never get the same number.
  for (const kind of KINDS) await run(`create sequence search_entry_${kind}`);
  for (const [table, body] of TRIGGERS) {
    await run(`create function search_${table}() returns trigger language plpgsql as $body$
      begin ${body} return null; end $body$`);
    await run(`create trigger search_${table} after insert or update or delete on ${table}
      for each row execute function search_${table}()`);
  }
}

const FUNCTIONS = [
  `create function search_words(value text) returns text[] language sql immutable strict parallel safe
   return (
     select coalesce(array_agg(left(found[1], 200) order by place), '{}')
     from regexp_matches(
       lower(regexp_replace(normalize(value, NFD), '[\\u0300-\\u036f]', '', 'g') collate "und-x-icu"),
       '[[:alnum:]]+', 'g'
     ) with ordinality as hit (found, place)
   )`,
  `create function search_vector(code text, words text) returns tsvector language sql immutable strict parallel safe
   return (
     select coalesce(string_agg('''' || word || ''':' || place::text, ' '), '')::tsvector
     from (
       select word, place from unnest(search_words(code)) with ordinality as a (word, place)
       union all
       select word, place + 100 from unnest(search_words(words)) with ordinality as b (word, place)
     ) as each
   )`,
  // Each of the words is a phrase; of the last word of it the beginning is enough where \`begun\`.
  `create function search_query(sought text[], begun boolean) returns tsquery language sql immutable strict parallel safe
   return (
     select string_agg(phrase, ' & ')::tsquery
     from unnest(sought) as one (text),
     lateral (
       select string_agg('''' || word || '''' || case when begun and place = count then ':*' else '' end, ' <-> '
         order by place) as phrase
       from (select word, place, count(*) over () as count
         from unnest(search_words(one.text)) with ordinality as c (word, place)) as each
     ) as phrases
   )`,
  // As 012-search.ts numbers them.
  `create function search_number(kind text) returns bigint language sql
   return nextval(('search_entry_' || kind)::regclass)
     + (case kind when 'order' then 1 when 'parcel' then 2 when 'piece' then 3 else 4 end) * 1099511627776`,
  `create function search_add(kind text, ref text, code text, words text) returns void language sql
   begin atomic
     insert into search_entry (id, kind, ref, code, words)
     select search_number($1), $1, $2, $3, $4
     where not exists (select from search_entry as known where known.kind = $1 and known.ref = $2)
     on conflict do nothing;
   end`,
  `create function search_order_words(body text) returns text language sql immutable parallel safe
   return coalesce(json_extract(body, '$.buyer'), '') || chr(10) || coalesce(json_extract(body, '$.to.postcode'), '') ||
     chr(10) || coalesce(json_extract(body, '$.address'), '')`,
  `create function search_add_buyer(body text) returns void language sql
   begin atomic
     select search_add('buyer', json_extract(body, '$.buyer'), '', json_extract(body, '$.buyer'))
     where json_extract(body, '$.buyer') <> '';
   end`,
  `create function search_drop_buyer(gone text) returns void language sql
   begin atomic
     delete from search_entry where kind = 'buyer' and ref = json_extract(gone, '$.buyer')
       and not exists (select from shop_order where json_extract(shop_order.body, '$.buyer') = json_extract(gone, '$.buyer'));
   end`,
];

/** A number of a parcel, and one that was answered for a label before it is on its parcel. */
const numberOf = (column: string, ref: (row: string) => string): string => `
  if tg_op <> 'INSERT' and (tg_op = 'DELETE' or old.${column} is distinct from new.${column}) then
    delete from search_entry where kind = 'parcel' and ref = ${ref('old')};
  end if;
  if tg_op <> 'DELETE' and (tg_op = 'INSERT' or old.${column} is distinct from new.${column})
    and new.${column} is not null then
    perform search_add('parcel', ${ref('new')}, new.${column}, '');
  end if;`;

const TRIGGERS: readonly (readonly [table: string, body: string])[] = [
  [
    'shop_order',
    `if tg_op = 'INSERT' then
       perform search_add('order', new.id, new.id, search_order_words(new.body));
       perform search_add_buyer(new.body);
     elsif tg_op = 'DELETE' then
       delete from search_entry where kind = 'order' and ref = old.id;
       perform search_drop_buyer(old.body);
     elsif old.body <> new.body then
       update search_entry set words = search_order_words(new.body)
         where kind = 'order' and ref = new.id and words <> search_order_words(new.body);
       perform search_drop_buyer(old.body);
       perform search_add_buyer(new.body);
     end if;`,
  ],
  [
    'piece',
    `if tg_op = 'INSERT' then
       perform search_add('piece', new.sku, new.sku, coalesce(json_extract(new.body, '$.title'), ''));
     elsif tg_op = 'DELETE' then
       delete from search_entry where kind = 'piece' and ref = old.sku;
     elsif old.body <> new.body then
       update search_entry set words = coalesce(json_extract(new.body, '$.title'), '')
         where kind = 'piece' and ref = new.sku;
     end if;`,
  ],
  ['parcel', numberOf('label', (row) => `${row}.id::text`)],
  ['label_request', numberOf('tracking', (row) => `'asked-' || ${row}.id`)],
];
