import { doubtsOf } from './doubts.ts';
import { serviceName } from './service-name.ts';
import { allPieces, dueOf, parcelHere } from '#shared/run/here.ts';
import { settledBracket } from '#shared/run/pay.ts';
import type { RunState } from '#shared/run/types.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { PlannedPiece } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Localised } from '#shared/words/language.ts';
import { money } from '#shared/units/money.ts';
import type { ContainerTag, OrderTag, PieceLine } from '#shared/wire/views.ts';

export function orderTagOf(state: RunState): OrderTag | null {
  const { order } = state;
  if (order === null) return null;
  return {
    id: order.id,
    buyer: order.buyer,
    shipBy: order.shipBy,
    arriveBy: order.arriveBy ?? null,
    note: order.note ?? null,
    pieces: order.pieces.map((line) => pieceLine(state, line.sku)),
    parcel: state.parcel,
    parcels: state.parcels.length,
    ...(state.lies ? { lies: state.lies } : {}),
  };
}

function pieceLine(state: RunState, sku: string): PieceLine {
  const planned = allPieces(state).find((each) => each.piece.sku === sku);
  const due = state.order === null ? 0 : dueOf(state.order, sku);
  const gathered = state.gathered[sku] ?? 0;
  return {
    sku,
    title: planned?.piece.title ?? sku,
    // Their own shelves are empty: where they lie together stands on the order's tag.
    place: state.lies ? null : (planned?.piece.place ?? null),
    due,
    gathered,
    mark: markOf(state, sku, gathered >= due),
  };
}

function markOf(state: RunState, sku: string, found: boolean): PieceLine['mark'] {
  const { step } = state;
  if (step.at === 'gather') return found ? 'done' : 'waiting';
  if (step.at === 'look-over') return isPiece(allPieces(state)[step.piece], sku) ? 'current' : 'waiting';
  const here = parcelHere(state)?.pieces ?? [];
  const done = step.at === 'fold' ? step.piece : here.length;
  if (isPiece(here[done], sku)) return 'current';
  const later = state.parcels.slice(state.parcel + 1).flatMap(({ pieces }) => pieces);
  return [...here.slice(done), ...later].some((each) => isPiece(each, sku)) ? 'waiting' : 'done';
}

function isPiece(planned: PlannedPiece | undefined, sku: string): boolean {
  return planned?.piece.sku === sku;
}

export function containerTagOf(state: RunState, shop: Shop): ContainerTag | null {
  const parcel = parcelHere(state);
  if (parcel === undefined) return null;
  const { container, fit, offer, wrap } = parcel;
  const paid = settledBracket(state) ?? offer;
  // What the plan saved and why are no longer told once the parcel is paid for otherwise.
  const asPlanned = paid.service === offer.service && paid.price.minor === offer.price.minor;
  const { width, length, thickness } = fit.slack;
  return {
    id: container.id,
    name: container.name,
    type: container.type,
    wrap: wrap.name,
    service: paid.service,
    serviceName: serviceName(shop, paid.service),
    price: paid.price,
    fit: fit.verdict,
    spare: Math.max(0, Math.min(width, length, thickness)),
    piles: fit.piles ?? 1,
    doubled: doubledOf(container, shop),
    doubts: doubtsOf(state, parcel, shop),
    saves:
      asPlanned && state.nextBest !== null && state.nextBest.dearerBy > 0
        ? { over: state.nextBest.container, by: money(state.nextBest.dearerBy, offer.price.currency) }
        : null,
    reasons: asPlanned ? offer.reasons : [],
  };
}

function doubledOf({ doubled }: Container, shop: Shop): ContainerTag['doubled'] {
  if (doubled === undefined) return null;
  const name = (id: string): Localised => shop.containers.get(id)?.name ?? { en: id, es: id };
  return { inner: name(doubled.inner), outer: name(doubled.outer) };
}
