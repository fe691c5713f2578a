import { serviceName } from '#shared/run/view/service-name.ts';
import type { WhatFits } from '#shared/planning/what-fits.ts';
import type { Destination } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { toMillimetres } from '#shared/units/length.ts';
import type { ContainerFitView, FitsView, WardrobeView } from '#shared/wire/fits.ts';

export function wardrobeView({ wardrobe, units, from }: Shop): WardrobeView {
  return {
    kinds: [...wardrobe.kinds.values()].map(({ id, name, sizes, defaultSize, defaultCloth, outline }) => ({
      id,
      name,
      sizes: Object.keys(sizes),
      defaultSize,
      defaultCloth: outline === 'block' ? null : defaultCloth,
    })),
    cloths: [...wardrobe.cloths.values()].map(({ id, name }) => ({ id, name })),
    units,
    to: { postcode: from.postcode, country: from.country },
  };
}

function containerView(each: WhatFits['containers'][number], titles: readonly string[], shop: Shop): ContainerFitView {
  const { container, fit, service } = each;
  const { width, length, depth } = container.inside;
  return {
    id: container.id,
    name: container.name,
    type: container.type,
    inside: {
      width: toMillimetres(width),
      length: toMillimetres(length),
      depth: depth === undefined ? null : toMillimetres(depth),
    },
    closing: toMillimetres(container.closing),
    stack: each.stack,
    fit: {
      verdict: fit.verdict,
      probability: fit.probability,
      slack: fit.slack,
      turned: fit.turned,
      limit: fit.limit,
    },
    wrap: each.wrap.name,
    folds: each.folds.map(({ recipeName, steps }, index) => ({
      title: titles[index] ?? '',
      recipe: recipeName,
      steps: steps.length,
    })),
    cost: each.cost,
    service: service === null ? null : { name: serviceName(shop, service.service), days: service.days ?? null },
    isChosen: each.isChosen,
    why: each.why,
    services: each.services.map((other) => ({ name: serviceName(shop, other.service), why: other.why })),
  };
}

/** What the "What fits" page shows of what was found. */
export function fitsView(fits: WhatFits, shop: Shop, to: Destination): FitsView {
  const { kinds, cloths } = shop.wardrobe;
  const titles = fits.pieces.map(({ title }) => title);
  return {
    units: shop.units,
    currency: shop.currency,
    to: { postcode: to.postcode, country: to.country },
    pieces: fits.pieces.map(({ kind, cloth, ...piece }) => ({
      ...piece,
      kind: kinds.get(kind)?.name ?? { en: kind, es: kind },
      cloth: cloth === null ? null : (cloths.get(cloth)?.name ?? { en: cloth, es: cloth }),
    })),
    containers: fits.containers.map((each) => containerView(each, titles, shop)),
    leftOut: fits.leftOut,
    parcels: (fits.plan?.parcels ?? []).map((parcel) => ({
      container: parcel.container.name,
      titles: parcel.pieces.map(({ piece }) => piece.title),
    })),
    cost: fits.plan?.cost ?? null,
    why: fits.planWhy,
    proven: fits.plan?.proven ?? true,
    lowerBound: fits.plan?.lowerBound ?? null,
  };
}
