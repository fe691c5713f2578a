import { describe, expect, it } from 'vitest';
import type { RateBook } from '#shared/rating/rate-card.ts';
import { rejectionWords, savingOf, whyWords } from '#shared/planning/explain.ts';
import { warningsFor, warningWords, type EstimateWarning } from '#shared/planning/estimate-warnings.ts';
import { UNPLANNED } from '#shared/planning/plan-error.ts';
import type { OrderPlan, ParcelPlan } from '#shared/planning/types.ts';
import { unplannedWords } from '#shared/planning/unplanned-words.ts';
import { ounces, parcel, plan, plannedPiece } from '#tests/support/run-fixtures.ts';
import { toGrams } from '#shared/units/mass.ts';
import { shopOf } from '#tests/support/view-fixture.ts';

describe('why a container or a service was not chosen', () => {
  it.each<[string, Readonly<Record<string, string>>, string, string]>([
    ['left-out', {}, 'Left out for this order', 'Descartado para este pedido'],
    [
      'too-tight',
      { by: '0.60 in', limit: 'width' },
      'Too tight: 0.60 in short in width',
      'Demasiado justo: faltan 0.60 in de ancho',
    ],
    [
      'too-tight',
      { by: '2 cm', limit: 'thickness' },
      'Too tight: 2 cm short in thickness',
      'Demasiado justo: faltan 2 cm de grosor',
    ],
    [
      'too-tight',
      { by: '2 cm', limit: 'thickness-cap' },
      'Too tight: 2 cm short in the thickness that it may have',
      'Demasiado justo: faltan 2 cm de grosor permitido',
    ],
    [
      'too-tight',
      { by: '2 cm', limit: 'somewhere' },
      'Too tight: 2 cm short in somewhere',
      'Demasiado justo: faltan 2 cm de somewhere',
    ],
    [
      'must-not-press',
      {},
      'Closes only when pressed, and these pieces must not be pressed',
      'Solo cierra con presión, y estas prendas no se deben aplastar',
    ],
    ['no-service', {}, 'The pieces fit, but no service takes it', 'Las prendas caben, pero ningún servicio lo admite'],
    [
      'too-heavy',
      { expected: '22 lb', most: '20 lb' },
      'Expected to weigh 22 lb; it takes 20 lb at most',
      'Se espera que pese 22 lb; admite 20 lb como máximo',
    ],
    [
      'too-light',
      { expected: '3 oz', least: '1 lb' },
      'Expected to weigh 3 oz; it takes 1 lb at least',
      'Se espera que pese 3 oz; admite 1 lb como mínimo',
    ],
    [
      'slower-than-paid',
      { paid: 'quick' },
      'Slower than quick, which the buyer paid for',
      'Más lento que quick, que es lo que pagó quien compra',
    ],
    [
      'later-than-promised',
      { days: '5', by: '2026-11-27' },
      'May take 5 days: later than 2026-11-27, which was promised',
      'Puede tardar 5 días: después del 2026-11-27, que es lo prometido',
    ],
    ['out-of-stock', {}, 'Out of stock', 'Agotado'],
    [
      'wants-double-bag',
      {},
      'A piece is worth so much that one pouch is not enough for it',
      'Una prenda vale tanto que no basta un solo sobre',
    ],
    ['dearer', { by: '$1.00' }, 'Costs $1.00 more', 'Cuesta $1.00 más'],
    ['no-cheaper', {}, 'Costs the same', 'Cuesta lo mismo'],
  ])('%s', (code, values, en, es) => {
    const rejection = { container: 'x', code, values };
    expect([rejectionWords(rejection, 'en'), rejectionWords(rejection, 'es')]).toEqual([en, es]);
  });
});

describe('why this plan', () => {
  const planned = (parcels: number, total: number, change: Partial<OrderPlan> = {}): OrderPlan => {
    const each = parcel(['A']);
    return { ...plan(Array.from({ length: parcels }, () => each)), cost: { ...each.cost, total }, ...change };
  };
  const other = (total: number) => ({ parcels: [parcel(['A'], 'box-9')], cost: { ...parcel([]).cost, total } });
  const unsure: Partial<OrderPlan> = { proven: false, lowerBound: 650.9 };

  it.each<[string, OrderPlan, string, string]>([
    [
      'cheaper than the next',
      planned(1, 730, { alternatives: [other(961)] }),
      'Saves $2.31 against box-9.',
      'Ahorra $2.31 frente a box-9.',
    ],
    [
      'as dear as the next',
      planned(1, 730, { alternatives: [other(729.8)] }),
      'Saves $0.00 against box-9.',
      'Ahorra $0.00 frente a box-9.',
    ],
    [
      'two parcels, cheaper than one',
      planned(2, 730, { alternatives: [other(830)] }),
      'In 2 parcels it saves $1.00 against box-9.',
      'En 2 paquetes se ahorran $1.00 frente a box-9.',
    ],
    ['no other', planned(1, 730), 'The only container that will do.', 'El único embalaje que sirve.'],
    [
      'two parcels and no other',
      planned(2, 730),
      'No one container takes all the pieces: 2 parcels.',
      'Ningún embalaje admite todas las prendas: 2 paquetes.',
    ],
    [
      'not proven',
      planned(1, 730, unsure),
      'The only container that will do. Not proven the cheapest: that costs at least $6.50.',
      'El único embalaje que sirve. No está demostrado que sea el más barato: este cuesta al menos $6.50.',
    ],
    [
      'proven, whatever the bound',
      planned(1, 730, { lowerBound: 650 }),
      'The only container that will do.',
      'El único embalaje que sirve.',
    ],
    [
      'not proven, without a bound',
      planned(1, 730, { proven: false }),
      'The only container that will do.',
      'El único embalaje que sirve.',
    ],
    [
      'a service that it cannot keep',
      planned(1, 730, { promise: { service: 'quick', kept: false } }),
      'The only container that will do. It cannot go by quick or as quickly, which the buyer paid for.',
      'El único embalaje que sirve. No puede ir por quick ni igual de rápido, que es lo que pagó quien compra.',
    ],
    [
      'a day that it cannot keep, with a service',
      planned(1, 730, {
        promise: { service: 'quick', arriveBy: '2026-11-27', kept: false },
        alternatives: [other(731)],
      }),
      'Saves $0.01 against box-9. Nothing is sure to arrive by 2026-11-27, as was promised.',
      'Ahorra $0.01 frente a box-9. Nada llega con seguridad el 2026-11-27, como se prometió.',
    ],
    [
      'a day that it cannot keep',
      planned(1, 730, { promise: { arriveBy: '2026-11-27', kept: false } }),
      'The only container that will do. Nothing is sure to arrive by 2026-11-27, as was promised.',
      'El único embalaje que sirve. Nada llega con seguridad el 2026-11-27, como se prometió.',
    ],
    [
      'what it keeps',
      planned(1, 730, { promise: { service: 'quick', kept: true } }),
      'The only container that will do.',
      'El único embalaje que sirve.',
    ],
  ])('%s', (_, each, en, es) => {
    expect([whyWords(each, 'en'), whyWords(each, 'es')]).toEqual([en, es]);
  });

  it('saves nothing against a plan without parcels', () => {
    expect(savingOf(planned(1, 730, { alternatives: [{ parcels: [], cost: parcel([]).cost }] }))).toBeNull();
  });
});

describe('why there is none', () => {
  it.each([
    ['no-pieces', 'it has no pieces', 'no tiene prendas'],
    ['unknown-piece', 'it names a piece that nobody entered', 'nombra una prenda que nadie ha dado de alta'],
    ['nothing-fits', 'no container and service fit it', 'ningún embalaje ni servicio le sirve'],
    ['no-rates', 'no rate card is in force on this day', 'ninguna tarifa está en vigor ese día'],
  ])('%s', (code, en, es) => {
    expect(unplannedWords(`${UNPLANNED}${code}`)).toEqual({ en, es });
  });

  it('is none of its reasons where it was set aside for another', () => {
    for (const reason of [null, 'damaged', 'no-pieces', UNPLANNED]) expect(unplannedWords(reason)).toBeNull();
  });
});

describe('what to know before a piece is listed', () => {
  const gram = (text: string) => toGrams(ounces(text));
  /** Brackets at 8, 12, 16 and 32 oz of 4.10, 4.65, 6.25 and 8.05. */
  const at = (mean: number, sd: number, change: Partial<ParcelPlan> = {}): ParcelPlan => ({
    ...parcel(['A']),
    mass: { mean, sd },
    ...change,
  });
  const shop = shopOf({});
  const warnings = (promised: ParcelPlan, parcels = [promised], unserved: readonly string[] = [], where = shop) =>
    warningsFor(promised, parcels, unserved, where);
  const codes = (...given: Parameters<typeof warnings>) => warnings(...given).map(({ code }) => code);
  const weighed = { ...plannedPiece('A'), piece: { ...plannedPiece('A').piece, mass: ounces('9') } };

  it('a bracket that is near, from below and from above', () => {
    expect(warnings(at(gram('15.5'), gram('0.3')))).toContainEqual({
      code: 'under-a-bracket',
      values: { by: '0.5 oz', ceiling: '16.0 oz', more: '$1.80' },
    });
    expect(warnings(at(gram('12.5'), gram('0.3')))).toContainEqual({
      code: 'over-a-bracket',
      values: { by: '0.5 oz', ceiling: '12.0 oz', less: '$1.60' },
    });
    const brackets = (mean: string, sd: string) =>
      codes(at(gram(mean), gram(sd))).filter((code) => code.endsWith('a-bracket'));
    expect(brackets('14', '0.9')).toEqual([]);
    expect(brackets('14', '1.1')).toEqual(['under-a-bracket', 'over-a-bracket']);
    expect(brackets('7.9', '1')).toEqual(['under-a-bracket']);
    expect(brackets('2', '1')).toEqual([]);
    expect(brackets('12', '0.1')).toEqual(['under-a-bracket']);
    expect(brackets('33', '5')).toEqual([]);
    expect(warnings(at(gram('31.9'), gram('1')))[0]?.values).toMatchObject({ ceiling: '32.0 oz', more: '' });
  });

  it('what is not known of it', () => {
    expect(codes(at(gram('14'), 1))).toEqual(['not-weighed']);
    expect(codes(at(gram('14'), 1, { pieces: [weighed] }))).toEqual([]);
    const assumed = { ...weighed, fold: { ...weighed.fold, assumed: ['size', 'cloth'] as const } };
    expect(warnings(at(gram('14'), 1, { pieces: [assumed] }))).toEqual([
      { code: 'assumed', values: { what: 'size, cloth' } },
    ]);
    expect(codes(at(gram('14'), 1, { pieces: [] }))).toEqual([]);
  });

  it('how it goes: snug, by volume or not, in another container elsewhere, nowhere', () => {
    const sure = at(gram('14'), 1, { pieces: [weighed] });
    expect(codes({ ...sure, fit: { ...sure.fit, verdict: 'snug' } })).toEqual(['snug']);
    const elsewhere = { ...sure, container: parcel([], 'box-9').container };
    expect(warnings(sure, [sure, elsewhere, sure])).toEqual([
      { code: 'container-by-zone', values: { containers: 'pouch-a, box-9' } },
    ]);
    expect(warnings(sure, [sure], ['8', '9'])).toEqual([{ code: 'unserved', values: { zones: '8, 9' } }]);
    const selling = (...rules: readonly string[]) =>
      shopOf({
        rates: {
          cards: [{ services: [{ prices: rules.map((rule) => ({ rule })) }] }],
          places: () => null,
        } as unknown as RateBook,
      });
    expect(warnings(sure, [sure], [], selling('weight-bracket', 'cubic-box'))).toEqual([
      { code: 'not-cubic', values: { container: 'pouch-a' } },
    ]);
    expect(codes(sure, [sure], [], selling('weight-bracket'))).toEqual([]);
    const cubic = { ...sure, otherServices: [{ ...sure.prices, rule: 'cubic-soft' as const }] };
    expect(codes(cubic, [cubic], [], selling('cubic-soft'))).toEqual([]);
  });

  it.each<[EstimateWarning['code'], EstimateWarning['values'], string, string]>([
    [
      'under-a-bracket',
      { by: '0.5 oz', ceiling: '16.0 oz' },
      '0.5 oz under the 16.0 oz bracket: weigh it',
      '0.5 oz por debajo del tramo de 16.0 oz: hay que pesarla',
    ],
    [
      'over-a-bracket',
      { by: '0.5 oz', ceiling: '12.0 oz', less: '$1.60' },
      '0.5 oz over 12.0 oz: below that it costs $1.60 less',
      '0.5 oz por encima de 12.0 oz: por debajo cuesta $1.60 menos',
    ],
    ['not-weighed', {}, 'Not weighed: its mass is estimated', 'Sin pesar: su masa es una estimación'],
    [
      'assumed',
      { what: 'size, cloth, hem' },
      'Assumed, as nobody said: size, cloth, hem',
      'Supuesto, porque nadie lo dijo: talla, tejido, hem',
    ],
    ['not-cubic', { container: 'box' }, 'Will not go cubic in box', 'No irá por volumen en box'],
    ['snug', {}, 'Closes only when pressed', 'Solo cierra con presión'],
    [
      'container-by-zone',
      { containers: 'a, b' },
      'The best container depends on the zone: a, b',
      'El mejor embalaje depende de la zona: a, b',
    ],
    ['unserved', { zones: '8, 9' }, 'Cannot be sent to zone 8, 9', 'No se puede enviar a la zona 8, 9'],
    ['unserved', {}, 'Cannot be sent to zone ', 'No se puede enviar a la zona '],
  ])('%s in words', (code, values, en, es) => {
    expect([warningWords({ code, values }, 'en'), warningWords({ code, values }, 'es')]).toEqual([en, es]);
  });
});
