import { PHRASES } from './phrases.ts';
import { counted } from './quantity-words.ts';
import type { Said, Sentences } from './sentences.ts';

const both = (text: string): Said => ({ full: text, short: text });
const said = (full: string, short: string): Said => ({ full, short });
const { 'weigh-again': weigh, 'make-lighter': lighter, 'pay-next-bracket': pay } = PHRASES.es;
const ASK = 'Confirma o cancela.';

/** Where the pieces of an order go that is given back. */
const backTo = (basket: string | undefined): string =>
  basket === undefined ? 'Devuelve sus prendas a sus estantes.' : `Devuelve sus prendas a la cesta ${basket}.`;

export const sentencesEs: Sentences = {
  orders: (count) => counted(count, 'es', 'pedido', 'pedidos', 'masculine'),
  pieces: (count) => counted(count, 'es', 'prenda', 'prendas', 'feminine'),
  idle: (waiting) => said(`Listo. ${waiting} en espera.`, 'Listo.'),
  noneWaiting: said('No hay pedidos en espera.', 'Nada en espera.'),
  gather: (pieces, next) => said(`Busca ${pieces}. ${next.full}`, next.short),
  nextPiece: (title, place) =>
    place === null
      ? said(`Busca: ${title}.`, `${title}.`)
      : said(`Busca: ${title}, en el estante ${place}.`, `${title}, ${place}.`),
  allHere: both('Están todas las prendas.'),
  lookOver: (title) => said(`Revísala: ${title}.`, `${title}.`),
  emptyPockets: said(
    'Vacía todos los bolsillos. Si hay una pila de litio, un aerosol o perfume, aparta el pedido.',
    'Bolsillos.',
  ),
  foldFirst: (title, recipe) => said(`${title}. Pliegue: ${recipe}.`, `${title}.`),
  foldEnds: (size) => said(`Debe quedar en ${size}.`, `${size}.`),
  fill: (container) => said(`Mételo en: ${container}. No lo cierres todavía.`, `${container}.`),
  asUsual: (title, recipe, size) => said(`Como siempre: ${title}. ${recipe}, ${size}.`, `${title}, como siempre.`),
  filmFromChildren: said('Las bolsas, lejos de los niños.', ''),
  weigh: (expected) => said(`Pésalo sin cerrar. Se espera en torno a ${expected}.`, 'Pésalo.'),
  close: (reading, ceiling) => both(`${reading}, muy cerca de ${ceiling}.`),
  over: (total, ceiling) =>
    said(`${total} con etiqueta, albarán y cinta, más de ${ceiling}.`, `${total}, más de ${ceiling}.`),
  mismatch: (reading, low, high) =>
    said(
      `${reading}. Estas prendas suelen pesar de ${low} a ${high}. Revisa las prendas.`,
      `${reading}. Revisa las prendas.`,
    ),
  choices: (dearerBy) =>
    said(
      dearerBy === null ? `Puedes ${weigh} o ${lighter}.` : `Puedes ${weigh}, ${lighter} o ${pay}: ${dearerBy} más.`,
      dearerBy === null ? '' : `${dearerBy} más.`,
    ),
  seal: (weighed) =>
    weighed === null
      ? said('El albarán nuevo dentro. Cierra el paquete.', 'Ciérralo.')
      : said(`${weighed}, bien. El albarán dentro. Cierra el paquete.`, `${weighed}, bien. Ciérralo.`),
  cutAway: said('Corta lejos de la mano.', ''),
  liftWithTwo: both('Pesa mucho: levántalo entre dos.'),
  label: (postcode) => said(`Pega la etiqueta y léela. Debe decir ${postcode}.`, `Etiqueta: ${postcode}.`),
  entering: (digits) =>
    digits === null
      ? said('Da las cifras del número de la etiqueta, o de su código postal.', '¿Las cifras?')
      : said(`Hasta ahora: ${digits}. Confirma si es así.`, `${digits}.`),
  layIn: (basket) => said(`Ponla en la cesta ${basket}.`, `Cesta ${basket}.`),
  done: (order) => said(`Pedido ${order} listo. Déjalo con los que se recogen.`, 'Listo.'),
  confirm: (command, reason) => {
    const because = reason === null ? '' : ` Porque ${reason}.`;
    if (command === 'set-aside') return said(`¿Apartar este pedido?${because} ${ASK}`, `¿Apartar?${because}`);
    if (command === 'pay-next-bracket') return said(`¿Pagar el tramo siguiente? ${ASK}`, '¿Pagar el tramo siguiente?');
    if (command === 'go-without') {
      const piece = reason ?? 'esta prenda';
      return said(`¿Enviar el pedido sin ${piece}? ${ASK}`, `¿Sin ${piece}?`);
    }
    if (command === 'release') return said(`¿Devolver este pedido? ${ASK}`, '¿Devolverlo?');
    if (command === 'print-again') return said(`¿Imprimir otra vez el albarán? ${ASK}`, '¿Imprimir otra vez?');
    return said(`¿Seguro? ${ASK}`, '¿Seguro?');
  },
  endBatch: said(`¿Dejar de doblar en serie? ${ASK}`, '¿Dejar de doblar en serie?'),
  byEye: (postcode) => said(`¿La etiqueta dice ${postcode}? ${ASK}`, `¿Dice ${postcode}?`),
  asItIs: said(`¿Están todas las prendas y ninguna más? ${ASK}`, '¿Todas las prendas y ninguna más?'),
  reasons: {
    missing: 'falta una prenda',
    damaged: 'una prenda está dañada',
    forbidden: 'hay algo que no se puede enviar',
    'no-fit': 'ningún embalaje sirve',
    other: 'hay otro motivo',
  },
  notices: {
    'piece-found': () => both('Prenda correcta.'),
    'piece-already-scanned': () => both('Ya leída.'),
    'piece-not-in-order': () =>
      said('Prenda equivocada. Devuélvela: no es de este pedido.', 'Prenda equivocada. Devuélvela.'),
    'code-not-known': () => said('Este código no se conoce.', 'Código desconocido.'),
    'code-half-read': () => said('Quedó a medias. Léelo otra vez.', 'Léelo otra vez.'),
    'not-now': () => said('Aquí no se puede.', 'Aquí no.'),
    'container-right': () => both('Embalaje correcto.'),
    'container-wrong': (v) =>
      said(`Embalaje equivocado. Toma: ${v['due'] ?? 'el indicado'}.`, `Embalaje equivocado. ${v['due'] ?? ''}`),
    'next-plan': (v) => said(`Plan nuevo: ${v['container'] ?? 'otro embalaje'}.`, 'Plan nuevo.'),
    'no-other-plan': () => said('No hay un embalaje mayor. Aparta el pedido o pide ayuda.', 'No hay embalaje mayor.'),
    'scale-not-still': () => both('Deja que la balanza se pare.'),
    'scale-empty': () => said('La balanza está vacía. Pon el paquete.', 'La balanza está vacía.'),
    'scale-fault': () => said('La balanza avisa de un fallo. Mírala.', 'Fallo de la balanza.'),
    'scale-not-emptied': () => said('Vacía primero la balanza y vuelve a pesar.', 'Vacía antes la balanza.'),
    'zero-asked': () => said('Poniendo a cero. Deja el plato vacío.', 'Poniendo a cero.'),
    'label-right': () => both('Etiqueta correcta.'),
    'label-wrong-postcode': (v) =>
      said(
        `Alto. Etiqueta equivocada. Dice ${v['found'] ?? 'otro código'}. Este paquete va a ${v['due'] ?? 'otro'}. Quítala.`,
        `Alto. Etiqueta equivocada: ${v['found'] ?? ''}. Quítala.`,
      ),
    'label-used-before': () => said('Alto. Esta etiqueta está en otro paquete. Quítala.', 'Alto. Etiqueta ya usada.'),
    'label-other-number': () =>
      said('Alto. Para este paquete se compró otra etiqueta. Quita esta.', 'Alto. Va otra etiqueta.'),
    'label-bad-check-digit': () => said('La etiqueta se leyó mal. Léela otra vez.', 'Lee otra vez la etiqueta.'),
    'label-by-eye-asked': () => null,
    'number-so-far': (v) => both(`${v['number'] ?? 'tomado'}.`),
    'number-too-short': (v) => said(`Hacen falta al menos ${v['fewest'] ?? ''} cifras.`, 'Faltan cifras.'),
    'number-too-long': (v) =>
      said(`Ningún número tiene más de ${v['most'] ?? ''} cifras. No se tomó.`, 'Demasiadas cifras.'),
    'number-does-not-check': () => said('Una de las cifras está mal: no cuadra la de control.', 'Una cifra está mal.'),
    'number-of-no-label': () => both('No es el número de una etiqueta.'),
    'postcode-has-letters': () =>
      said('El código postal lleva letras. Da el número largo o revisa a ojo.', 'El código postal lleva letras.'),
    'weigh-again-asked': () => said('Vacía la balanza y pon otra vez el paquete.', 'Vacía y pon otra vez.'),
    'lighter-asked': () => said('Aligéralo. Vacía la balanza y vuelve a pesar.', 'Aligéralo.'),
    released: ({ basket }) => said(`El pedido queda libre para otra mesa. ${backTo(basket)}`, 'Liberado.'),
    'packer-changed': (v) => said(`Ahora prepara ${v['packer'] ?? 'otra persona'}.`, `${v['packer'] ?? ''}.`),
    'cannot-be-planned': ({ why }) =>
      why === 'no-rates'
        ? said('Hoy no hay tarifas en vigor. Mira la fecha y las tarifas.', 'Hoy no hay tarifas.')
        : said('Nada sirve para este pedido. Pide ayuda.', 'Nada sirve.'),
    'confirm-asked': () => null,
    cancelled: () => said('Cancelado. Nada ha cambiado.', 'Cancelado.'),
    'print-failed': () => said('El albarán no se imprimió. Mira la impresora.', 'Albarán no impreso.'),
    'print-unknown': () => said('Mira la impresora: ¿salió el albarán?', '¿Salió el albarán?'),
    'order-taken-elsewhere': ({ bench }) =>
      said(`Ese pedido se prepara en ${bench ?? 'otra mesa'}.`, `En ${bench ?? 'otra mesa'}.`),
    'order-not-open': () => said('Ese pedido no está abierto.', 'No está abierto.'),
    'no-order-waiting': () => both('No hay pedidos en espera.'),
    'set-aside-done': ({ place }) =>
      place === undefined
        ? said('Apartado. Deja sus prendas en el estante de apartados.', 'Apartado.')
        : said(`Apartado. Deja sus prendas en el estante de apartados, lugar ${place}.`, `Apartado, lugar ${place}.`),
    'help-called': () => both('Ayuda avisada.'),
    'mass-mismatch': () => null,
    'guidance-changed': () => both('La guía ha cambiado.'),
    'signed-off': () => both('Ahora no embala nadie aquí.'),
    'skill-needed': () => said('Este pedido pide una destreza que aún no está firmada.', 'Destreza sin firmar.'),
    'order-folded': ({ basket }) => both(`Ya doblado, en la cesta ${basket ?? ''}.`),
    'folded-otherwise': ({ basket }) => both(`En la cesta ${basket ?? ''}, hay que doblarlo de nuevo.`),
    'goes-without': ({ title }) => said(`${title ?? ''} va después. Sigue con las otras.`, 'Va después.'),
    'order-was-aside': ({ place }) => both(`En el estante de apartados, lugar ${place ?? ''}.`),
    'order-being-folded': () => both('Ese pedido se está doblando en serie.'),
    'bench-silent': ({ bench }) =>
      both(`${bench ?? ''} tiene este pedido y no responde. Léelo otra vez para seguir aquí.`),
    'run-taken-over': ({ bench }) => both(`El pedido sigue aquí, donde lo dejó ${bench ?? ''}.`),
    'run-given-over': ({ bench }) => both(`${bench ?? ''} siguió con este pedido.`),
    'released-by-office': ({ basket }) => both(`La oficina liberó este pedido. ${backTo(basket)}`),
    'laid-in-basket': () => said('En su cesta.', ''),
    'left-batch': () => both('Un pedido cambió y ya no se dobla aquí. Devuelve sus prendas.'),
    'batch-ended': () => said('Devuelve a su estante lo que no esté doblado.', 'Terminado.'),
    'no-batch': () => both('Ya no quedan dos pedidos para este embalaje.'),
    'list-printed': () => said('La lista sale por la impresora.', ''),
    'address-doubtful': () => said('La dirección parece incompleta. Pregunta a la oficina.', 'Pregunta la dirección.'),
    'skill-lacking': () => said('Con calma: una destreza de este pedido aún no está firmada.', 'Con calma.'),
    'sack-open': () => said('Lee los paquetes que van al saco.', 'Saco abierto.'),
    'sack-in': (v) => said(`En el saco: pedido ${v['order'] ?? ''}.`, 'En el saco.'),
    'sack-already-in': () => said('Ese paquete ya está en el saco.', 'Ya está.'),
    'sack-wrong-carrier': () => said('Saco equivocado. Ese paquete es de otro transportista.', 'Saco equivocado.'),
    'sack-left-before': () =>
      said('Ese paquete está en una hoja de entrega anterior. Debería haber salido.', 'En una hoja anterior.'),
    'sack-stays': () => said('Ese paquete se queda aquí: se retuvo.', 'Se queda aquí.'),
    'sack-not-known': () => said('No es un paquete nuestro.', 'No es nuestro.'),
    undone: () => both('Un paso atrás.'),
    'not-stored': () => said('No se guardó. Repítelo.', 'No se guardó.'),
  },
  devices: { scale: 'la balanza', scanner: 'el lector', printer: 'la impresora' },
  troubles: {
    'no-frames': (device) => `No llega nada de ${device}.`.replace('de el ', 'del '),
    'not-installed': (device) => `Falta la parte del programa para ${device}.`,
    'cannot-open': (device) => `No se abre ${device}.`,
    'link-lost': (device) => `Sin conexión con ${device}.`,
    garbage: (device) => `Solo llega basura de ${device}.`.replace('de el ', 'del '),
    'paper-near-end': () => 'Queda poco papel.',
    'paper-out': () => 'No hay papel.',
    'cover-open': () => 'La tapa de la impresora está abierta.',
    offline: (device) => `Fuera de línea: ${device}.`,
    restarted: (device) => `Se ha reiniciado ${device}. Mira el papel.`,
    contradiction: () => 'Parece que contestan dos balanzas por una línea.',
    overload: () => 'Demasiado peso en la balanza.',
    underload: () => 'La balanza marca menos de cero.',
    fault: (device) => `Avisa de un fallo ${device}.`,
  },
  deviceBack: (device) => `Funciona otra vez ${device}.`,
  helpWanted: (bench) => `Piden ayuda en ${bench}.`,
  zeroMoved: (mass) => said(`La balanza vacía marca ${mass}. Vacíala y ponla a cero.`, 'Pon la balanza a cero.'),
  linkLost: said('Sin conexión con el servidor. Lo que leas se guarda.', 'Sin conexión con el servidor.'),
  linkBack: both('Ha vuelto la conexión.'),
  trial: 'Así hablo ahora.',
};
