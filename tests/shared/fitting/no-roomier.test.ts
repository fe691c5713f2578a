import { expect, it } from 'vitest';
import { noRoomier } from '#shared/fitting/no-roomier.ts';
import type { Container } from '#shared/fitting/types.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { aContainer } from '#tests/support/demo-wardrobe.ts';

const pouch = (width: number, length: number, more: Partial<Container> = {}) =>
  aContainer('pouch', [width, length], more);
const card = (width: number, length: number, more: Partial<Container> = {}) =>
  aContainer('card', [width, length], more);
const carton = (...sides: [number, number, number]) => aContainer('carton', sides);
const mm = lengthFromMillimetres;

it('a smaller one of its kind, and a card beside a pouch, has no more room', () => {
  expect(noRoomier(pouch(250, 330), pouch(370, 480))).toBe(true);
  expect(noRoomier(pouch(250, 330), pouch(250, 330))).toBe(true);
  expect(noRoomier(card(230, 300, { thicknessCap: mm(20) }), pouch(370, 480))).toBe(true);
  expect(noRoomier(carton(200, 150, 100), carton(230, 300, 100))).toBe(true);
});

it('a wider, longer, deeper or thinner one may have', () => {
  expect(noRoomier(pouch(260, 330), pouch(250, 480))).toBe(false);
  expect(noRoomier(pouch(250, 490), pouch(370, 480))).toBe(false);
  expect(noRoomier(pouch(250, 480, { closing: mm(10) }), pouch(250, 500, { closing: mm(40) }))).toBe(false);
  expect(noRoomier(pouch(250, 330), pouch(370, 480, { wall: mm(4) }))).toBe(false);
  expect(noRoomier(card(230, 300), card(230, 300, { thicknessCap: mm(20) }))).toBe(false);
  expect(noRoomier(carton(200, 150, 110), carton(230, 300, 100))).toBe(false);
  expect(noRoomier(carton(240, 240, 50), carton(230, 300, 100))).toBe(false);
});

it('between a pouch and a carton, or a pouch and a card, nobody can tell', () => {
  expect(noRoomier(pouch(100, 100), carton(500, 500, 500))).toBe(false);
  expect(noRoomier(carton(100, 100, 50), pouch(500, 500))).toBe(false);
  expect(noRoomier(pouch(100, 100), card(500, 500))).toBe(false);
});
