import { describe, expect, it } from 'vitest';
import { cueOf } from '#shared/voice/cue.ts';
import { deviceCue } from '#shared/voice/device-cue.ts';
import { plainText } from '#drivers/speech/synthesiser.ts';
import { NOTICE_CODES, type Notice } from '#shared/run/types.ts';
import { money } from '#shared/units/money.ts';
import { LANGUAGES, type Language } from '#shared/words/language.ts';
import { DEVICE_STATES, type BenchView, type DeviceHealth } from '#shared/wire/views.ts';
import { benchView, oz, TASK_NAMES, TASKS, type TaskName } from '#tests/station-ui/fixtures.ts';

const quiet = { notice: null } as const;
const notice = (code: Notice['code'], tone: Notice['tone'], values: Notice['values'] = {}) => ({
  notice: { code, tone, values },
});
const said = (task: TaskName, language: Language, change: Partial<BenchView> = quiet) => {
  const { full, short } = cueOf(benchView(task, language, change));
  return [full, short];
};

describe('says what is to be done', () => {
  it.each<[TaskName, Language, string, string]>([
    ['idle', 'en', 'Ready. Twenty-three orders are waiting.', 'Ready.'],
    ['idle', 'es', 'Listo. Veintitrés pedidos en espera.', 'Listo.'],
    ['gather', 'en', 'Find: work shirt, L, ochre, on shelf C two.', 'Work shirt, L, ochre, C two.'],
    ['gather', 'es', 'Busca: work shirt, L, ochre, en el estante C dos.', 'Work shirt, L, ochre, C dos.'],
    [
      'look-over',
      'en',
      'Look it over: work shirt, L, ochre. Empty every pocket. A lithium cell, an aerosol or perfume: set the order aside.',
      'Work shirt, L, ochre. Pockets.',
    ],
    [
      'look-over',
      'es',
      'Revísala: work shirt, L, ochre. Vacía todos los bolsillos. Si hay una pila de litio, un aerosol o perfume, aparta el pedido.',
      'Work shirt, L, ochre. Bolsillos.',
    ],
    ['fold', 'en', 'Fold the right third over.', 'Right third over.'],
    ['fold', 'es', 'Dobla encima el tercio derecho.', 'Tercio derecho encima.'],
    [
      'fill',
      'en',
      'Put it into the Pouch ten by thirteen. Do not seal it yet. Keep film bags from children.',
      'Pouch ten by thirteen.',
    ],
    [
      'fill',
      'es',
      'Mételo en: Sobre diez por trece. No lo cierres todavía. Las bolsas, lejos de los niños.',
      'Sobre diez por trece.',
    ],
    ['weigh', 'en', 'Weigh it, not sealed yet. About fifteen point six ounces is expected.', 'Weigh it.'],
    ['weigh', 'es', 'Pésalo sin cerrar. Se espera en torno a quince coma seis onzas.', 'Pésalo.'],
    [
      'decide',
      'en',
      'Fifteen point nine ounces, too close to sixteen. Say weigh once more, lighten this parcel, or pay the difference: one dollar and eighty cents more.',
      'Fifteen point nine ounces, too close to sixteen. One dollar and eighty cents more.',
    ],
    [
      'decide',
      'es',
      'Quince coma nueve onzas, muy cerca de dieciséis. Puedes pesar otra vez, aligerar o pagar la diferencia: un dólar con ochenta centavos más.',
      'Quince coma nueve onzas, muy cerca de dieciséis. Un dólar con ochenta centavos más.',
    ],
    [
      'over',
      'en',
      'Sixteen point five ounces with label, slip and tape, over sixteen. Say weigh once more, lighten this parcel, or pay the difference: one dollar and eighty cents more.',
      'Sixteen point five ounces, over sixteen. One dollar and eighty cents more.',
    ],
    [
      'mismatch',
      'es',
      'Nueve coma dos onzas. Estas prendas suelen pesar de quince coma uno a dieciséis coma uno onzas. Revisa las prendas.',
      'Nueve coma dos onzas. Revisa las prendas.',
    ],
    ['seal', 'en', 'The new slip inside. Seal the parcel. Cut away from your hand.', 'Seal it.'],
    [
      'label',
      'en',
      'Stick on the label and scan it. It must say five five eight zero two.',
      'Label: five five eight zero two.',
    ],
    [
      'label',
      'es',
      'Pega la etiqueta y léela. Debe decir cinco cinco ocho cero dos.',
      'Etiqueta: cinco cinco ocho cero dos.',
    ],
    ['done', 'en', 'Order one zero four seven is packed. Put it with the ones to be collected.', 'Packed.'],
    ['done', 'es', 'Pedido uno cero cuatro siete listo. Déjalo con los que se recogen.', 'Listo.'],
  ])('%s in %s', (task, language, full, short) => {
    expect(said(task, language)).toEqual([full, short]);
  });
});

it('names the piece and the fold at its first step, and the size at its last', () => {
  const fold = TASKS.fold;
  expect(said('fold', 'en', { ...quiet, task: { ...fold, step: 0 } })[0]).toBe(
    'Work shirt, L, ochre. Fold: Shirt, in thirds. Fold the right third over.',
  );
  expect(said('fold', 'es', { ...quiet, task: { ...fold, step: 5 } })).toEqual([
    'Dobla encima el tercio derecho. Debe quedar en nueve por diez pulgadas y media.',
    'Tercio derecho encima. Nueve por diez pulgadas y media.',
  ]);
});

it('tells those who know a fold its key step with piece and size, or only that it is as usual', () => {
  expect(said('fold', 'en', { ...quiet, guidance: 'brief' })[0]).toBe(
    'Work shirt, L, ochre. Fold: Shirt, in thirds. Fold the right third over. It should be nine by ten and a half inches.',
  );
  const asUsual = [{ piece: 'tee, M', recipe: { en: 'In thirds', es: 'En tercios' }, block: TASKS.fold.block }];
  const task = { ...TASKS.fill, asUsual, cautions: [] };
  expect(said('fill', 'es', { ...quiet, task })).toEqual([
    'Como siempre: tee, M. En tercios, nueve por diez pulgadas y media. Mételo en: Sobre diez por trece. No lo cierres todavía.',
    'Tee, M, como siempre. Sobre diez por trece.',
  ]);
});

it('tells a clear weight before the sealing', () => {
  const task = { ...TASKS.seal, weighed: oz('15.1'), cautions: [] };
  expect(said('seal', 'en', { ...quiet, task })[0]).toBe(
    'Fifteen point one ounces, clear. Slip inside. Seal the parcel.',
  );
  expect(said('seal', 'es', { ...quiet, task })[1]).toBe('Quince coma uno onzas, bien. Ciérralo.');
});

it('says ceilings in pounds as price lists do, and a mass in grams to a shop of grams', () => {
  const { decide } = TASKS;
  const heavy = { ...decide, verdict: { ...decide.verdict, ceiling: oz('320') } };
  expect(said('decide', 'en', { ...quiet, task: heavy })[0]).toContain('too close to twenty pounds.');
  const units = { mass: 'g', massPlaces: 0, length: 'cm' } as const;
  expect(said('decide', 'es', { ...quiet, units })[1]).toMatch(/^Cuatrocientos cincuenta y un gramos, muy cerca de/);
});

it('says no price where this service takes no more', () => {
  expect(said('decide', 'en', { ...quiet, task: { ...TASKS.decide, nextPrice: null } })).toEqual([
    'Fifteen point nine ounces, too close to sixteen. Say lighten this parcel, or weigh once more.',
    'Fifteen point nine ounces, too close to sixteen.',
  ]);
  const cheap = { ...TASKS.decide, nextPrice: money(626, 'USD') };
  expect(said('decide', 'en', { ...quiet, task: cheap })[1]).toContain('One cent more.');
});

describe('refusals', () => {
  it.each<[Notice['code'], Notice['values'], string, string]>([
    [
      'piece-not-in-order',
      {},
      'Wrong piece. Put it back: it is not in this order.',
      'Prenda equivocada. Devuélvela: no es de este pedido.',
    ],
    [
      'label-wrong-postcode',
      { found: '10001', due: '55802' },
      'Stop. Wrong label. It says one zero zero zero one. This parcel goes to five five eight zero two. Take it away.',
      'Alto. Etiqueta equivocada. Dice uno cero cero cero uno. Este paquete va a cinco cinco ocho cero dos. Quítala.',
    ],
    [
      'container-wrong',
      { found: 'carton-x', due: 'pouch-10x13' },
      'Wrong container. Take the Pouch ten by thirteen.',
      'Embalaje equivocado. Toma: Sobre diez por trece.',
    ],
  ])('says %s alone and at once', (code, values, en, es) => {
    for (const [language, text] of [
      ['en', en],
      ['es', es],
    ] as const) {
      const cue = cueOf(benchView('label', language, notice(code, 'stop', values)));
      expect([cue.full, cue.urgency]).toEqual([text, 'urgent']);
    }
  });

  it('says what is no stop before what is to be done, and does not cut anything off', () => {
    const cue = cueOf(benchView('weigh', 'en', notice('scale-not-still', 'attention')));
    expect(cue.full).toBe(
      'Let the scale come to rest. Weigh it, not sealed yet. About fifteen point six ounces is expected.',
    );
    expect(cue.urgency).toBe('normal');
  });
});

describe('asks', () => {
  it.each<[TaskName, BenchView['confirming'], string, string]>([
    [
      'fold',
      { command: 'set-aside', reason: 'damaged' },
      'Set this order aside? Because a piece is damaged. Say yes confirm, or cancel that.',
      '¿Apartar este pedido? Porque una prenda está dañada. Confirma o cancela.',
    ],
    [
      'decide',
      { command: 'pay-next-bracket' },
      'Pay the next bracket? Say yes confirm, or cancel that.',
      '¿Pagar el tramo siguiente? Confirma o cancela.',
    ],
    [
      'label',
      { command: 'next' },
      'Does the label say five five eight zero two? Say yes confirm, or cancel that.',
      '¿La etiqueta dice cinco cinco ocho cero dos? Confirma o cancela.',
    ],
    [
      'mismatch',
      { command: 'next' },
      'Are all pieces in, and no other? Say yes confirm, or cancel that.',
      '¿Están todas las prendas y ninguna más? Confirma o cancela.',
    ],
    [
      'gather',
      { command: 'go-without' },
      'Send the order without work shirt, L, ochre? Say yes confirm, or cancel that.',
      '¿Enviar el pedido sin work shirt, L, ochre? Confirma o cancela.',
    ],
    [
      'look-over',
      { command: 'release' },
      'Give this order back? Say yes confirm, or cancel that.',
      '¿Devolver este pedido? Confirma o cancela.',
    ],
    [
      'seal',
      { command: 'print-again' },
      'Print the slip again? Say yes confirm, or cancel that.',
      '¿Imprimir otra vez el albarán? Confirma o cancela.',
    ],
    [
      'fold',
      { command: 'set-aside' },
      'Set this order aside? Say yes confirm, or cancel that.',
      '¿Apartar este pedido? Confirma o cancela.',
    ],
    ['fold', { command: 'next' }, 'Sure? Say yes confirm, or cancel that.', '¿Seguro? Confirma o cancela.'],
  ])('at %s about %o', (task, confirming, en, es) => {
    expect(said(task, 'en', { ...quiet, confirming })[0]).toBe(en);
    expect(said(task, 'es', { ...quiet, confirming })[0]).toBe(es);
  });
});

it('asks whether folding ahead should end, not whether an order goes back', () => {
  const batch = { order: '7', basket: 2, sku: 'A', title: 'Coat', place: null, index: 0, of: 2 };
  const asked = { ...quiet, batch, confirming: { command: 'release' } } as const;
  expect(said('fold', 'en', asked)).toEqual([
    'End folding ahead? Say yes confirm, or cancel that.',
    'End folding ahead?',
  ]);
  expect(said('fold', 'es', asked)[1]).toBe('¿Dejar de doblar en serie?');
});

describe.each(LANGUAGES)('in %s', (language) => {
  it('has a sayable sentence for every step in both lengths', () => {
    for (const task of TASK_NAMES) {
      for (const text of said(task, language)) expect(plainText(text)).toBe(text);
    }
  });

  it('says every notice, or the question that it asks, without digits or holes', () => {
    for (const code of NOTICE_CODES) {
      const view = benchView(
        'weigh',
        language,
        notice(code, 'stop', { title: 'Coat 2', order: '12', command: 'next' }),
      );
      const { full } = cueOf(view);
      expect(full).not.toMatch(/undefined|\d/);
      if (!['label-by-eye-asked', 'confirm-asked', 'mass-mismatch'].includes(code)) expect(full).toMatch(/\p{L}/u);
    }
  });

  it('tells of every trouble of a device once, and when it works again', () => {
    const health = (state: DeviceHealth['state'], trouble: DeviceHealth['trouble']): readonly DeviceHealth[] => [
      { device: 'scale', state, trouble, since: 0 },
    ];
    const working = health('working', 'none');
    const lost = deviceCue(working, health('lost', 'link-lost'), language);
    expect(lost).toMatchObject({
      urgency: 'urgent',
      full: language === 'en' ? 'The scale is not connected.' : 'Sin conexión con la balanza.',
    });
    expect(deviceCue(health('lost', 'link-lost'), working, language)?.full).toMatch(/scale|balanza/);
    expect(deviceCue(working, working, language)).toBeNull();
    expect(deviceCue([], health('lost', 'link-lost'), language)).toBeNull();
    expect(DEVICE_STATES).toContain('lost');
  });
});

describe('reads a number back', () => {
  const entering = (digits: string, language: Language, told?: string) =>
    said('label', language, {
      task: { at: 'label', postcode: '55802', entering: digits },
      ...(told === undefined ? quiet : notice('number-so-far', 'well', { number: told })),
    });

  it('what was just given by itself, digit by digit', () => {
    expect(entering('55802', 'en', '802')).toEqual(['Eight zero two.', 'Eight zero two.']);
    expect(entering('55802', 'es', '802')).toEqual(['Ocho cero dos.', 'Ocho cero dos.']);
  });

  it('all of it when nothing else is told, with what can be said then', () => {
    expect(entering('55802', 'en')).toEqual([
      'So far: five five eight zero two. Say yes confirm, one step back, start over, or cancel that.',
      'Five five eight zero two.',
    ]);
    expect(entering('55802', 'es')).toEqual([
      'Hasta ahora: cinco cinco ocho cero dos. Confirma si es así.',
      'Cinco cinco ocho cero dos.',
    ]);
  });

  it('has another key with every digit', () => {
    const key = (digits: string) =>
      cueOf(benchView('label', 'en', { ...quiet, task: { at: 'label', postcode: '55802', entering: digits } })).key;
    expect(new Set(['', '5', '55'].map(key)).size).toBe(3);
  });
});

describe('says a thing once', () => {
  const key = (task: TaskName, change: Partial<BenchView> = quiet) => cueOf(benchView(task, 'en', change)).key;

  it('has the same key while only the slip, the queue or the scan changed', () => {
    const other = { ...quiet, slip: 'queued', seq: 99, lastScan: null, queue: [] } as const;
    expect(key('seal', other)).toBe(key('seal'));
  });

  it('has another key at another step, after a question, when asked again and in another language', () => {
    const keys = [
      key('seal'),
      key('label'),
      key('fold'),
      key('fold', { ...quiet, task: { ...TASKS.fold, step: 3 } }),
      key('seal', { ...quiet, repeats: 1 }),
      key('seal', { ...quiet, confirming: { command: 'set-aside' } }),
      cueOf(benchView('seal', 'es', quiet)).key,
    ];
    expect(new Set(keys).size).toBe(keys.length);
  });
});
