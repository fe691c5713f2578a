import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { archedArrow, boxAfter, outline, project, reflect, turnsOver } from '#station-ui/components/fold-geometry.ts';
import { millimetreWords } from '#station-ui/components/lengths.ts';
import { shirtDrawing } from './fixtures.ts';

describe('projection', () => {
  it('keeps the proportions and stays in the room', () => {
    const room = { x: 100, y: 40, width: 400, height: 300 };
    const at = project({ x: -50, y: 20, width: 200, height: 600 }, room);
    expect(at.scale).toBeCloseTo(0.5, 12);
    expect(at.to([-50, 20])).toEqual([250, 40]);
    expect(at.to([150, 620])).toEqual([350, 340]);
  });
});

describe('turning over the fold line', () => {
  it('is its own inverse', () => {
    const number = fc.double({ min: -500, max: 500, noNaN: true });
    fc.assert(
      fc.property(
        fc.tuple(number, number),
        fc.tuple(number, number),
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        (p, a, turn) => {
          const line = [a, [a[0] + Math.cos(turn), a[1] + Math.sin(turn)]] as const;
          const twice = reflect(reflect(p, line), line);
          expect(twice[0]).toBeCloseTo(p[0], 6);
          expect(twice[1]).toBeCloseTo(p[1], 6);
        },
      ),
    );
  });

  it('is shown only where the drawing lands where turning would put it', () => {
    const drawing = shirtDrawing();
    expect(turnsOver(drawing)).toBe(true);
    expect(turnsOver({ ...drawing, landing: drawing.moving })).toBe(false);
    const { still, moving, landing, bounds, endsAs } = drawing;
    expect(turnsOver({ still, moving, landing, bounds, endsAs })).toBe(false);
  });
});

it('sizes are written at the cloth as it lies after the step', () => {
  const drawing = shirtDrawing();
  const box = boxAfter(drawing);
  expect(box.width).toBeCloseTo(drawing.endsAs.width, 6);
  expect(box.height).toBeCloseTo(drawing.endsAs.length, 6);
});

it('sizes are said as the trade says them', () => {
  expect(millimetreWords(9 * 25.4, 'in', 'en')).toBe('9');
  expect(millimetreWords(10.5 * 25.4, 'in', 'en')).toBe('10½');
  expect(millimetreWords(1.25 * 25.4, 'in', 'en')).toBe('1¼');
  expect(millimetreWords(266, 'cm', 'en')).toBe('26.6');
});

it('the arrow starts at what moves and its head is at where it lands', () => {
  const { arch, head } = archedArrow(
    [
      [100, 50],
      [20, 50],
    ],
    30,
  );
  expect(arch.startsWith('M100.0 50.0')).toBe(true);
  expect(head.startsWith('M20.0 50.0')).toBe(true);
});

it('an outline is closed and holds every corner', () => {
  expect(
    outline(
      [
        [0, 0],
        [1, 0],
        [1, 1],
      ],
      (p) => p,
    ),
  ).toBe('M0.0 0.0L1.0 0.0L1.0 1.0Z');
});
