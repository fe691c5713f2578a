import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { rateCardSchema, toRateBook } from '#config/schema/rate-card.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import type { RatedParcel } from '#shared/rating/types.ts';
import { parseLength } from '#shared/units/length.ts';

/** A book from the text of rate cards. */
export function bookOf(...yaml: readonly string[]): RateBook {
  return toRateBook(yaml.map((text) => rateCardSchema.parse(parse(text))));
}

/** A book of one card as somebody writes it, with these zones and services. @param mass of numbers without a unit */
export const bookWith = (services: string, zones = '[{ by: flat, zone: home }]', mass = 'lb'): RateBook =>
  bookOf(`
carrier: c
name: { en: Post, es: Correo }
currency: USD
units: { mass: ${mass}, length: in }
from: 2026-01-01
zones: ${zones}
services:
${services}
`);

const file = (path: string): string => readFileSync(new URL(`../../config/${path}`, import.meta.url), 'utf8');

export const demoBook = (): RateBook =>
  bookOf(file('rate-cards/merrow-post.yaml'), file('rate-cards/overfield-ground.yaml'));
export const metricBook = (): RateBook => bookOf(file('demo-metric/rate-cards/varnholm-post.yaml'));

/** "12 x 9 x 1.6 in" */
export function box(text: string): RatedParcel {
  const [sides, unit = ''] = split(text);
  const [a = '', b = '', c = ''] = sides;
  return {
    shape: { form: 'box', sides: [parseLength(a + unit), parseLength(b + unit), parseLength(c + unit)] },
    containerType: 'carton',
  };
}

/** "12.25 x 9 in", or with a thickness "12.25 x 9 x 1 in" */
export function soft(text: string, more: Partial<RatedParcel> = {}): RatedParcel {
  const [sides, unit = ''] = split(text);
  const [length = '', width = '', thickness = '0'] = sides;
  return {
    shape: {
      form: 'soft',
      length: parseLength(length + unit),
      width: parseLength(width + unit),
      thickness: parseLength(thickness + unit),
    },
    containerType: 'pouch',
    ...more,
  };
}

function split(text: string): [string[], string | undefined] {
  const match = /^(.*?)\s*([a-z]+)$/.exec(text);
  return [(match?.[1] ?? '').split(/\s*x\s*/), match?.[2]];
}
