import fc from 'fast-check';
import { expect, it } from 'vitest';
import { spread } from '#drivers/voice/cepstra.ts';

const WIDTH = 13;

function momentsOf(values: Float32Array, coefficient: number): { readonly mean: number; readonly deviation: number } {
  const own = Array.from(values).filter((_, at) => at % WIDTH === coefficient);
  const mean = own.reduce((sum, each) => sum + each, 0) / own.length;
  return { mean, deviation: Math.sqrt(own.reduce((sum, each) => sum + (each - mean) ** 2, 0) / own.length) };
}

const utterance = fc
  .array(fc.array(fc.integer({ min: -400, max: 400 }), { minLength: WIDTH, maxLength: WIDTH }), {
    minLength: 2,
    maxLength: 40,
  })
  .map((frames) => Float32Array.from(frames.flat(), (tenths) => tenths / 10));

it('spreads what noise has pressed together, about the same mean and in the same order', () => {
  fc.assert(
    fc.property(utterance, (values) => {
      const before = values.slice();
      // As noise presses: a fifth of what it was.
      const pressed = Float32Array.from(before, (value) => value / 5);
      spread(values, WIDTH);
      spread(pressed, WIDTH);
      for (let coefficient = 0; coefficient < WIDTH; coefficient += 1) {
        const was = momentsOf(before, coefficient);
        const is = momentsOf(values, coefficient);
        const ofPressed = momentsOf(pressed, coefficient);
        expect(is.mean).toBeCloseTo(was.mean, 2);
        // A fifth becomes five to the power of -0.3: three fifths.
        expect(ofPressed.deviation).toBeCloseTo(is.deviation * 5 ** -0.3, 2);
        for (let at = coefficient + WIDTH; at < values.length; at += WIDTH) {
          const rose = Math.sign((before[at] ?? 0) - (before[coefficient] ?? 0));
          const rises = (values[at] ?? 0) - (values[coefficient] ?? 0);
          expect(rises * rose).toBeGreaterThanOrEqual(-1e-3);
        }
      }
    }),
    { numRuns: 40 },
  );
});

it('leaves alone what does not vary, and an utterance without a frame', () => {
  const still = new Float32Array(WIDTH * 3).fill(7);
  spread(still, WIDTH);
  expect([...still]).toEqual(Array.from({ length: WIDTH * 3 }, () => 7));
  expect(() => spread(new Float32Array(0), WIDTH)).not.toThrow();
});
