import type { Problem } from '#config/config-error.ts';
import type { Store } from '#server/store/open.ts';
import { allPieces } from '#server/store/pieces.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** Kinds and cloths that a change takes away while pieces of them are stored: nobody could plan or weigh those any more. */
export async function goneInUse(store: Store, before: Shop, after: Shop): Promise<readonly Problem[]> {
  const gone = {
    kind: [...before.wardrobe.kinds.keys()].filter((id) => !after.wardrobe.kinds.has(id)),
    cloth: [...before.wardrobe.cloths.keys()].filter((id) => !after.wardrobe.cloths.has(id)),
  };
  if (gone.kind.length + gone.cloth.length === 0) return [];
  const pieces = [...(await allPieces(store)).values()];
  return (['kind', 'cloth'] as const).flatMap((what) =>
    gone[what].flatMap((id): Problem[] => {
      const [first, ...others] = pieces.filter((piece) => piece[what] === id);
      if (first === undefined) return [];
      const [file, path] = what === 'kind' ? ['garments.yaml', `kinds.${id}`] : ['cloths.yaml', `cloths.${id}`];
      const of = `${first.sku}${others.length === 0 ? '' : ` and ${String(others.length)} more`}`;
      return [{ file, path, line: null, expected: `"${id}" to stay: pieces here are of it`, found: of }];
    }),
  );
}
