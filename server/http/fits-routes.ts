import { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { calendarDay } from '#server/calendar.ts';
import { wardrobeView } from '#server/office/fits-view.ts';
import { emptyContainers } from '#server/office/supplies/empty-containers.ts';
import { allBeliefs } from '#server/store/learning.ts';
import { findPieces } from '#server/store/pieces.ts';
import { measuresOfSize } from '#shared/garments/measures.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { parseMass, type Mass } from '#shared/units/mass.ts';
import { UnitError } from '#shared/units/unit-error.ts';
import { typedQuantity } from '#shared/units/typed.ts';

const text = z.string().trim().min(1).max(100);
const several = z.preprocess((raw) => (typeof raw === 'string' ? [raw] : raw), z.array(text).max(60));
export const fitsQuery = z.object({
  sku: several.optional(),
  kind: text.optional(),
  size: text.optional(),
  cloth: text.optional(),
  mass: text.optional(),
  to: text.optional(),
  country: z
    .string()
    .regex(/^[A-Z]{2}$/)
    .optional(),
});

type Query = z.output<typeof fitsQuery>;

/** The piece that nobody has yet: a kind in a size, for which the lister wants to know what it would go in. */
function imaginedPiece({ kind: id, size, cloth, mass }: Query, shop: Shop): Piece {
  const { kinds, cloths } = shop.wardrobe;
  const kind = id === undefined ? undefined : kinds.get(id);
  if (kind === undefined) throw bad(`kind: expected one of ${[...kinds.keys()].join(', ')}; found "${id ?? ''}"`);
  if (size !== undefined && measuresOfSize(kind, size) === null) {
    throw bad(`size: expected one of ${Object.keys(kind.sizes).join(', ')} of ${kind.id}; found "${size}"`);
  }
  if (cloth !== undefined && !cloths.has(cloth)) {
    throw bad(`cloth: expected one of ${[...cloths.keys()].join(', ')}; found "${cloth}"`);
  }
  return {
    sku: kind.id,
    title: kind.name[shop.language],
    kind: kind.id,
    ...(size === undefined ? {} : { size }),
    ...(cloth === undefined ? {} : { cloth }),
    ...(mass === undefined ? {} : { mass: massOf(mass, shop) }),
  };
}

/** A bare number is in the shop's unit, with decimals as the shop writes them. */
function massOf(said: string, shop: Shop): Mass {
  try {
    const mass = parseMass(typedQuantity(said, shop.importFormats.decimalMark, shop.units.mass));
    if (mass <= 0) throw bad(`mass: expected more than 0, found "${said}"`);
    return mass;
  } catch (error) {
    if (error instanceof UnitError) throw bad(error.message);
    throw error;
  }
}

function bad(message: string): HttpError {
  return new HttpError(400, 'bad-request', message);
}

/** What the pieces at hand, or pieces not yet at hand, would go in. */
export function fitsRoutes({ store, shops, clock, planner }: AppParts): Router {
  const routes = Router();
  routes.get('/wardrobe', (_request, response) => {
    response.json(wardrobeView(shops.current));
  });
  routes.get('/what-fits', async (request, response) => {
    const shop = shops.current;
    const asked = fitsQuery.safeParse(request.query);
    if (!asked.success) throw bad(z.prettifyError(asked.error));
    const { sku: skus = [], to: postcode, country } = asked.data;
    const imagined = asked.data.kind === undefined ? [] : [imaginedPiece(asked.data, shop)];
    const found = await findPieces(store, skus);
    const missing = skus.find((sku) => !found.has(sku));
    if (missing !== undefined)
      throw new HttpError(404, 'unknown-piece', `There is no piece "${missing}" in this shop.`);
    const all = [...skus, ...imagined.map(({ sku }) => sku)];
    if (all.length === 0) throw bad('sku or kind: expected at least one piece, found none');
    const to = { postcode: postcode ?? shop.from.postcode, country: country ?? shop.from.country };
    const done = await planner.fits({
      order: {
        id: 'what-fits',
        pieces: all.map((sku) => ({ sku, count: 1 })),
        buyer: '',
        address: [],
        to,
        shipBy: new Date(clock.now()).toISOString(),
      },
      pieces: new Map([...found, ...imagined.map((piece) => [piece.sku, piece] as const)]),
      day: calendarDay(clock.now(), shop.timeZone),
      beliefs: await allBeliefs(store),
      outOfStock: await emptyContainers(store, shop, null),
    });
    if (!done.ok) throw new HttpError(422, done.code, done.why);
    response.type('json').send(done.json);
  });
  return routes;
}
