import { ifThere, one } from './say.ts';
import type { Words } from './words.ts';

/** Notices of folding ahead, of the set-aside shelf and of orders that are given back. */
type SideNotices = Pick<
  Words['notices'],
  | 'order-folded'
  | 'folded-otherwise'
  | 'order-was-aside'
  | 'goes-without'
  | 'order-being-folded'
  | 'released-by-office'
  | 'bench-silent'
  | 'run-taken-over'
  | 'run-given-over'
  | 'laid-in-basket'
  | 'left-batch'
  | 'batch-ended'
  | 'no-batch'
  | 'list-printed'
>;

export const sideNoticesEn: SideNotices = {
  'order-folded': (v) => `Already folded, in basket ${one(v, 'basket')}: scan the pieces`,
  'folded-otherwise': (v) =>
    `In basket ${one(v, 'basket')}, but it must be folded anew: order, plan or shelf changed since`,
  'goes-without': (v) => `Goes without ${one(v, 'title')}: it follows in order ${one(v, 'order')}`,
  'order-was-aside': (v) => `Its pieces are on the set-aside shelf, place ${one(v, 'place')}`,
  'order-being-folded': (v) => `Order ${one(v, 'order')} is being folded ahead just now`,
  'released-by-office': (v) =>
    `The office gave order ${one(v, 'order')} to any bench: put its pieces back ${one(v, 'basket') === '' ? 'on their shelves' : `into basket ${one(v, 'basket')}`}`,
  'bench-silent': (v) =>
    `Order ${one(v, 'order')} is at ${one(v, 'bench')}, which does not answer: fetch the pieces from there and scan the order again to go on here`,
  'run-taken-over': (v) => `Order ${one(v, 'order')} goes on here, where ${one(v, 'bench')} left off`,
  'run-given-over': (v) => `Order ${one(v, 'order')} went on at ${one(v, 'bench')}: what you did since does not count`,
  'laid-in-basket': (v) => `In basket ${one(v, 'basket')}${ifThere(one(v, 'title'), ': ')}`,
  'left-batch': (v) =>
    `Order ${one(v, 'order')} has changed and is not folded here any more: put its pieces back${ifThere(one(v, 'basket'), ', look in basket ')}`,
  'batch-ended': () => 'Folding ahead has ended: put what is not folded back on its shelf',
  'no-batch': () => 'No two orders are left for this container',
  'list-printed': () => 'The list comes out of the printer',
};

export const sideNoticesEs: SideNotices = {
  'order-folded': (v) => `Ya doblado, en la cesta ${one(v, 'basket')}: lee las prendas`,
  'folded-otherwise': (v) =>
    `En la cesta ${one(v, 'basket')}, pero hay que doblarlo de nuevo: algo cambió desde entonces`,
  'goes-without': (v) => `Va sin ${one(v, 'title')}: va después en el pedido ${one(v, 'order')}`,
  'order-was-aside': (v) => `Sus prendas están en el estante de apartados, lugar ${one(v, 'place')}`,
  'order-being-folded': (v) => `El pedido ${one(v, 'order')} se está doblando en serie ahora`,
  'released-by-office': (v) =>
    `La oficina liberó el pedido ${one(v, 'order')}: devuelve sus prendas ${one(v, 'basket') === '' ? 'a sus estantes' : `a la cesta ${one(v, 'basket')}`}`,
  'bench-silent': (v) =>
    `El pedido ${one(v, 'order')} está en ${one(v, 'bench')}, que no responde: trae las prendas y lee el pedido otra vez para seguir aquí`,
  'run-taken-over': (v) => `El pedido ${one(v, 'order')} sigue aquí, donde lo dejó ${one(v, 'bench')}`,
  'run-given-over': (v) =>
    `El pedido ${one(v, 'order')} siguió en ${one(v, 'bench')}: lo hecho desde entonces no cuenta`,
  'laid-in-basket': (v) => `En la cesta ${one(v, 'basket')}${ifThere(one(v, 'title'), ': ')}`,
  'left-batch': (v) =>
    `El pedido ${one(v, 'order')} cambió y ya no se dobla aquí: devuelve sus prendas${ifThere(one(v, 'basket'), ', mira en la cesta ')}`,
  'batch-ended': () => 'Se acabó de doblar en serie: devuelve a su estante lo que no esté doblado',
  'no-batch': () => 'Ya no quedan dos pedidos para este embalaje',
  'list-printed': () => 'La lista sale por la impresora',
};
