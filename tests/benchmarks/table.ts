import Table from 'cli-table3';
import type { Figure } from './figure.ts';

/** A value with as many digits as it is worth. */
function shown(value: number): string {
  if (value >= 1000) return Math.round(value).toLocaleString('en');
  return Number(value.toPrecision(3)).toString();
}

/** Figures as one table against their goals. */
export function figuresTable(figures: readonly Figure[]): string {
  const drawn = new Table({
    head: ['bench', 'what', 'value', 'unit', 'goal', '', 'against'],
    style: { head: [], border: [], compact: true },
  });
  for (const { bench, name, value, unit, goal, met, against } of figures) {
    drawn.push([
      bench,
      name,
      shown(value),
      unit,
      goal === null ? '' : shown(goal),
      met === null ? '' : met ? 'met' : 'not met',
      against,
    ]);
  }
  return drawn.toString();
}
