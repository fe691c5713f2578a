import { sql } from 'kysely';
import type { Store } from '#server/store/open.ts';

/** Takes out of a store all that the search added to it, as a version without a search has left it. */
export async function backToBeforeSearch(store: Store): Promise<void> {
  const { rows } = await sql<{ type: string; name: string }>`select type, name from sqlite_master
    where name like 'search_%' and type = 'trigger'
    or name in ('search_order', 'search_piece', 'search_buyer', 'search_entry')
    or name in ('shop_order_buyer', 'shop_order_ship_by', 'shop_order_number')`.execute(store);
  const triggersFirst = [...rows].sort((a, b) => Number(b.type === 'trigger') - Number(a.type === 'trigger'));
  for (const { type, name } of triggersFirst) await sql`drop ${sql.raw(type)} ${sql.ref(name)}`.execute(store);
  await sql`delete from kysely_migration where name >= '012'`.execute(store);
}
