import type { DrawnPanel, FoldDrawing, Point } from '#shared/folding/types.ts';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Millimetres to pixels: the same scale both ways, the drawing in the middle of the room. */
export interface Projection {
  readonly scale: number;
  readonly to: (point: Point) => Point;
}

export function project(bounds: Box, room: Box): Projection {
  const scale = Math.min(room.width / Math.max(bounds.width, 1), room.height / Math.max(bounds.height, 1));
  const left = room.x + (room.width - bounds.width * scale) / 2;
  const top = room.y + (room.height - bounds.height * scale) / 2;
  return { scale, to: ([x, y]) => [left + (x - bounds.x) * scale, top + (y - bounds.y) * scale] };
}

function boxOf(panels: readonly DrawnPanel[]): Box | null {
  const points = panels.flatMap((panel) => panel.points);
  if (points.length === 0) return null;
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const x = Math.min(...xs);
  const y = Math.min(...ys);
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

/** The cloth as it lies after the step: what the sizes are written at. */
export function boxAfter(drawing: FoldDrawing): Box {
  return boxOf([...drawing.still, ...drawing.landing]) ?? boxOf(drawing.moving) ?? drawing.bounds;
}

export function reflect([x, y]: Point, [[ax, ay], [bx, by]]: readonly [Point, Point]): Point {
  const dx = bx - ax;
  const dy = by - ay;
  const along = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1);
  return [2 * (ax + along * dx) - x, 2 * (ay + along * dy) - y];
}

function middle(panels: readonly DrawnPanel[]): Point | null {
  const box = boxOf(panels);
  return box === null ? null : [box.x + box.width / 2, box.y + box.height / 2];
}

/**
 * True where what moves, turned over the fold line, comes to lie where the drawing says it lands: only then may the
 * screen show the turning.
 */
export function turnsOver(drawing: FoldDrawing): boolean {
  const from = middle(drawing.moving);
  const landing = middle(drawing.landing);
  if (drawing.foldLine === undefined || from === null || landing === null) return false;
  const [x, y] = reflect(from, drawing.foldLine);
  const near = 0.08 * Math.max(drawing.bounds.width, drawing.bounds.height);
  return Math.hypot(x - landing[0], y - landing[1]) < near;
}

/** An arched arrow from one point to another: path of the arch, and the head as a triangle. */
export function archedArrow([from, to]: readonly [Point, Point], largest: number): { arch: string; head: string } {
  const [ax, ay] = from;
  const [bx, by] = to;
  const length = Math.hypot(bx - ax, by - ay) || 1;
  const head = Math.min(largest, Math.max(0.5 * largest, 0.4 * length));
  // The arch rises to the left of an arrow pointing right: upwards on the screen for both directions along x.
  const side = bx < ax || (bx === ax && by > ay) ? 1 : -1;
  const lift = 0.35 * length;
  const cx = (ax + bx) / 2 - ((by - ay) / length) * lift * side;
  const cy = (ay + by) / 2 + ((bx - ax) / length) * lift * side;
  const angle = Math.atan2(by - cy, bx - cx);
  const end: Point = [bx - Math.cos(angle) * head * 0.8, by - Math.sin(angle) * head * 0.8];
  const wing = (turn: number): string => {
    const at = angle + turn;
    return `${round(bx - Math.cos(at) * head)} ${round(by - Math.sin(at) * head)}`;
  };
  return {
    arch: `M${round(ax)} ${round(ay)}Q${round(cx)} ${round(cy)} ${round(end[0])} ${round(end[1])}`,
    head: `M${round(bx)} ${round(by)}L${wing(0.5)}L${wing(-0.5)}Z`,
  };
}

function round(value: number): string {
  return value.toFixed(1);
}

/** An SVG path of a closed outline. */
export function outline(points: readonly Point[], to: (point: Point) => Point): string {
  const corners = points.map(to).map(([x, y]) => `${round(x)} ${round(y)}`);
  return corners.length === 0 ? '' : `M${corners.join('L')}Z`;
}
