import type { LabelPaper, LabelState, LabelsView, WhyNot } from '#shared/wire/label.ts';
import type { Language } from '#shared/words/language.ts';

/** What the office page "Labels" says. */
export interface OfficeLabelWords {
  readonly title: string;
  readonly to: Readonly<Record<LabelsView['to'], (url: string) => string>>;
  readonly trouble: (why: string) => string;
  readonly tryIt: string;
  readonly stopTrying: string;
  readonly states: Readonly<Record<LabelState, string>>;
  readonly stateHow: Readonly<Partial<Record<LabelState, string>>>;
  readonly columns: Readonly<
    Record<
      'order' | 'bench' | 'service' | 'state' | 'attempts' | 'when' | 'tracking' | 'paper' | 'answer' | 'key',
      string
    >
  >;
  readonly parcelOf: (order: string, number: number, of: number) => string;
  readonly nextTry: (when: string) => string;
  readonly lastTry: (when: string) => string;
  readonly whys: Readonly<Record<WhyNot | 'customs' | 'file', string>> & Readonly<Record<string, string>>;
  readonly papers: Readonly<Record<LabelPaper, string>>;
  readonly sendAgain: string;
  readonly printAgain: string;
  readonly open: string;
  readonly none: string;
  readonly list: string;
  readonly customs: (count: number) => string;
  readonly customsHow: string;
  readonly country: string;
  readonly missing: string;
  readonly file: string;
  readonly fileHow: string;
  readonly shipments: string;
  readonly chooseNumbers: string;
  readonly stored: (count: number) => string;
  readonly refused: (count: number) => string;
  readonly line: (line: number, column: string | null, expected: string, found: string) => string;
}

const en: OfficeLabelWords = {
  title: 'Labels from outside',
  to: {
    none: () =>
      'Nothing is sent: labels are made from the shipments file, or elsewhere. Where they are to be asked for stands in shop.yaml, under “labels”.',
    simulated: () => 'The simulated receiver answers, with invented labels that nobody carries.',
    receiver: (url) => `Asked for at ${url}`,
  },
  trouble: (why) => `Nothing can be sent: ${why}`,
  tryIt: 'Try it with the simulated receiver',
  stopTrying: 'Stop trying it',
  states: {
    held: 'customs facts missing',
    waiting: 'waiting',
    answered: 'answered',
    dead: 'given up',
    withdrawn: 'not needed',
    unused: 'bought, not used',
  },
  stateHow: {
    held: 'Import the missing facts with the pieces: then it is sent.',
    dead: 'Nothing more is sent by itself. The parcel may have gone on without it.',
    unused: 'Void it where it was bought.',
  },
  columns: {
    order: 'parcel',
    bench: 'bench',
    service: 'service',
    state: 'state',
    attempts: 'sent',
    when: 'when',
    tracking: 'number',
    paper: 'paper',
    answer: 'last answer',
    key: 'key',
  },
  parcelOf: (order, number, of) => (of > 1 ? `${order}, ${String(number)} of ${String(of)}` : order),
  nextTry: (when) => `again ${when}`,
  lastTry: (when) => `last ${when}`,
  whys: {
    timeout: 'no answer in time',
    'no-connection': 'no connection',
    status: 'refused or failed',
    redirect: 'sent elsewhere, not followed',
    'too-large': 'the answer is too large',
    'not-json': 'the answer is no JSON',
    'not-understood': 'the answer is not understood',
    'number-used': 'the number is on another parcel',
    customs: 'facts for the customs are missing',
    file: 'number from a file',
  },
  papers: { none: '', queued: 'in the queue', printed: 'printed', failed: 'not printed yet', unknown: 'printed? look' },
  sendAgain: 'Send again',
  printAgain: 'Print again',
  open: 'Open the label',
  none: 'No label was asked for yet.',
  list: 'What was asked for',
  customs: (count) =>
    count === 1 ? '1 open order goes abroad and lacks facts' : `${String(count)} open orders go abroad and lack facts`,
  customsHow:
    'Bring them in with the pieces: columns “value”, “mass”, “origin” (two letters), and “hsCode” if you know it. A country of origin for all stands in shop.yaml.',
  country: 'country',
  missing: 'missing',
  file: 'Without a connection',
  fileHow:
    'The shipments file has a row for each parcel that was weighed and has not left. What is made from it is read back as a file with the columns “key” (or “order” and “parcel”) and “tracking”.',
  shipments: 'Shipments file (CSV)',
  chooseNumbers: 'Read numbers back (CSV)',
  stored: (count) => (count === 1 ? '1 number is stored.' : `${String(count)} numbers are stored.`),
  refused: (count) =>
    count === 1 ? 'Nothing is stored: 1 line is refused.' : `Nothing is stored: ${String(count)} lines are refused.`,
  line: (line, column, expected, found) =>
    `line ${String(line)}${column === null ? '' : `, ${column}`}: expected ${expected}, found ${found}`,
};

const es: OfficeLabelWords = {
  title: 'Etiquetas de fuera',
  to: {
    none: () =>
      'No se envía nada: las etiquetas se hacen con el archivo de envíos, o en otra parte. Dónde pedirlas se indica en shop.yaml, en «labels».',
    simulated: () => 'Responde el receptor simulado, con etiquetas inventadas que nadie transporta.',
    receiver: (url) => `Se piden en ${url}`,
  },
  trouble: (why) => `No se puede enviar nada: ${why}`,
  tryIt: 'Probarlo con el receptor simulado',
  stopTrying: 'Dejar de probarlo',
  states: {
    held: 'faltan datos de aduana',
    waiting: 'en espera',
    answered: 'respondida',
    dead: 'abandonada',
    withdrawn: 'no hace falta',
    unused: 'comprada, sin usar',
  },
  stateHow: {
    held: 'Importe los datos que faltan con las piezas: entonces se envía.',
    dead: 'Ya no se envía sola. Puede que el paquete siguiera sin ella.',
    unused: 'Anúlela donde se compró.',
  },
  columns: {
    order: 'paquete',
    bench: 'mesa',
    service: 'servicio',
    state: 'estado',
    attempts: 'envíos',
    when: 'cuándo',
    tracking: 'número',
    paper: 'papel',
    answer: 'última respuesta',
    key: 'clave',
  },
  parcelOf: (order, number, of) => (of > 1 ? `${order}, ${String(number)} de ${String(of)}` : order),
  nextTry: (when) => `otra vez ${when}`,
  lastTry: (when) => `última ${when}`,
  whys: {
    timeout: 'sin respuesta a tiempo',
    'no-connection': 'sin conexión',
    status: 'rechazada o fallida',
    redirect: 'desviada a otro sitio, no se sigue',
    'too-large': 'la respuesta es demasiado grande',
    'not-json': 'la respuesta no es JSON',
    'not-understood': 'la respuesta no se entiende',
    'number-used': 'el número está en otro paquete',
    customs: 'faltan datos para la aduana',
    file: 'número de un archivo',
  },
  papers: { none: '', queued: 'en la cola', printed: 'impresa', failed: 'aún sin imprimir', unknown: '¿impresa? mire' },
  sendAgain: 'Enviar otra vez',
  printAgain: 'Imprimir otra vez',
  open: 'Abrir la etiqueta',
  none: 'Todavía no se pidió ninguna etiqueta.',
  list: 'Lo que se pidió',
  customs: (count) =>
    count === 1
      ? '1 pedido abierto va al extranjero y le faltan datos'
      : `${String(count)} pedidos abiertos van al extranjero y les faltan datos`,
  customsHow:
    'Impórtelos con las piezas: columnas «value», «mass», «origin» (dos letras) y «hsCode» si lo sabe. Un país de origen para todas se indica en shop.yaml.',
  country: 'país',
  missing: 'falta',
  file: 'Sin conexión',
  fileHow:
    'El archivo de envíos tiene una fila por cada paquete pesado que no ha salido. Lo que se haga con él se lee de vuelta como archivo con las columnas «key» (o «order» y «parcel») y «tracking».',
  shipments: 'Archivo de envíos (CSV)',
  chooseNumbers: 'Leer números de vuelta (CSV)',
  stored: (count) => (count === 1 ? 'Se guardó 1 número.' : `Se guardaron ${String(count)} números.`),
  refused: (count) =>
    count === 1 ? 'No se guardó nada: se rechaza 1 línea.' : `No se guardó nada: se rechazan ${String(count)} líneas.`,
  line: (line, column, expected, found) =>
    `línea ${String(line)}${column === null ? '' : `, ${column}`}: se esperaba ${expected}, hay ${found}`,
};

export const officeLabelWords: Readonly<Record<Language, OfficeLabelWords>> = { en, es };
