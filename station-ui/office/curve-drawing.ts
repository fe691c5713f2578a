import type uPlot from 'uplot';
import type { CurveLine } from './curve-lines.ts';
import type { CurvePoints } from './curve-points.ts';

/** What a chart of prices over mass shows. */
export interface CurveDrawing {
  readonly points: CurvePoints;
  /** how each service is drawn, in the order of the points */
  readonly lines: readonly CurveLine[];
  readonly most: number;
  readonly width: number;
  readonly height: number;
  /** of the parcel, and the words for it */
  readonly mass: number;
  readonly parcel: string;
  readonly axes: readonly [mass: string, price: string];
  readonly price: (units: number) => string;
  readonly dye: (name: string) => string;
  readonly family: string;
}

/** Room for the letters at the ends of the lines. */
const LETTERS = 34;

export function drawCurves(Chart: typeof uPlot, place: HTMLElement, drawing: CurveDrawing): uPlot {
  const { points, lines, most, dye, family } = drawing;
  const axis: uPlot.Axis = {
    stroke: dye('walnut'),
    grid: { stroke: dye('kraft'), width: 1 },
    ticks: { stroke: dye('walnut'), width: 1 },
    font: `15px ${family}`,
    labelFont: `15px ${family}`,
  };
  const options: uPlot.Options = {
    width: drawing.width,
    height: drawing.height,
    padding: [null, LETTERS, null, null],
    legend: { show: false },
    cursor: { show: false },
    scales: { x: { time: false, range: [0, most * 1.02] }, y: { range: (_, __, top) => [0, top * 1.2] } },
    axes: [
      { ...axis, label: drawing.axes[0] },
      { ...axis, label: drawing.axes[1], size: 72, values: (_, ticks) => ticks.map(drawing.price) },
    ],
    series: [
      {},
      ...lines.map((line): uPlot.Series => ({
        stroke: dye(line.dye),
        width: 3,
        dash: [...line.stitch],
        points: { show: false },
        ...(Chart.paths.stepped === undefined ? {} : { paths: Chart.paths.stepped({ align: -1 }) }),
      })),
    ],
    hooks: { draw: [(chart) => drawOver(chart, drawing)] },
  };
  return new Chart(options, [[...points.masses], ...points.prices.map((prices) => [...prices])], place);
}

/** A madder post at each ceiling, with the service's mark on it; a diamond on each line where the parcel is; the letters. */
function drawOver(chart: uPlot, drawing: CurveDrawing): void {
  const { ctx } = chart;
  const { points, lines, dye, family } = drawing;
  const scale = window.devicePixelRatio;
  const x = (mass: number): number => chart.valToPos(mass, 'x', true);
  const y = (price: number): number => chart.valToPos(price, 'y', true);
  const priceAt = (line: number, mass: number): number | null => {
    const at = points.masses.findIndex((each) => mass <= each);
    return points.prices[line]?.[at] ?? null;
  };
  ctx.save();
  // The stitch of the last line is still set.
  ctx.setLineDash([]);
  for (const [line, ceilings] of points.ceilings.entries()) {
    for (const ceiling of ceilings) {
      const price = priceAt(line, ceiling);
      if (price !== null) post(ctx, x(ceiling), y(0), y(price), lines[line], drawing, scale);
    }
  }
  for (const line of lines.keys()) {
    const price = priceAt(line, drawing.mass);
    if (price === null) continue;
    const [left, top, size] = [x(drawing.mass), y(price), 9 * scale];
    ctx.fillStyle = dye('ink');
    ctx.strokeStyle = dye('chalk');
    ctx.lineWidth = 2 * scale;
    ctx.beginPath();
    ctx.moveTo(left, top - size);
    ctx.lineTo(left + size, top);
    ctx.lineTo(left, top + size);
    ctx.lineTo(left - size, top);
    ctx.closePath();
    ctx.stroke();
    ctx.fill();
  }
  ctx.fillStyle = dye('ink');
  ctx.font = `${String(15 * scale)}px ${family}`;
  const left = x(drawing.mass);
  const room = chart.bbox.left + chart.bbox.width - left;
  ctx.textAlign = ctx.measureText(drawing.parcel).width + 24 * scale < room ? 'left' : 'right';
  ctx.textBaseline = 'top';
  ctx.fillText(drawing.parcel, left + (ctx.textAlign === 'left' ? 6 : -6) * scale, chart.bbox.top + 4 * scale);
  ctx.strokeStyle = dye('ink');
  ctx.lineWidth = scale;
  ctx.setLineDash([2 * scale, 4 * scale]);
  ctx.beginPath();
  ctx.moveTo(left, chart.bbox.top);
  ctx.lineTo(left, y(0));
  ctx.stroke();
  ctx.setLineDash([]);
  letters(ctx, chart, drawing, y, scale);
  ctx.restore();
}

function post(
  ctx: CanvasRenderingContext2D,
  left: number,
  bottom: number,
  top: number,
  line: CurveLine | undefined,
  { dye }: CurveDrawing,
  scale: number,
): void {
  ctx.strokeStyle = dye('madder');
  ctx.lineWidth = 1.5 * scale;
  ctx.beginPath();
  ctx.moveTo(left, bottom);
  ctx.lineTo(left, top);
  ctx.stroke();
  if (line === undefined) return;
  ctx.save();
  ctx.translate(left, top);
  ctx.scale(scale, scale);
  ctx.fillStyle = dye(line.dye);
  ctx.strokeStyle = dye('chalk');
  ctx.lineWidth = 1;
  const mark = new Path2D(line.mark);
  ctx.stroke(mark);
  ctx.fill(mark);
  ctx.restore();
}

/** Each line's letter where it ends, moved up where two would lie on each other. */
function letters(
  ctx: CanvasRenderingContext2D,
  chart: uPlot,
  { points, lines, dye, family }: CurveDrawing,
  y: (price: number) => number,
  scale: number,
): void {
  const ends = lines
    .flatMap((line, index) => {
      const prices = points.prices[index] ?? [];
      const last = prices.findLastIndex((price) => price !== null);
      const price = prices[last];
      return price === undefined || price === null ? [] : [{ line, price, mass: points.masses[last] ?? 0 }];
    })
    .sort((a, b) => a.price - b.price);
  let above = Infinity;
  ctx.font = `bold ${String(16 * scale)}px ${family}`;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  for (const { line, price, mass } of ends) {
    const top = Math.min(y(price), above - 18 * scale);
    above = top;
    ctx.fillStyle = dye(line.dye);
    ctx.fillText(line.letter, chart.valToPos(mass, 'x', true) + 10 * scale, top);
  }
}
