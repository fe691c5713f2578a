import { code128Bars } from './code128.ts';
import type { Alignment } from './document.ts';
import type { Paper, PaperRow, PaperRun } from './paper.ts';

/** A printer draws its normal font on a cell of 12 x 24 dots and feeds 30 dots for a line. */
const FONT_DOTS = 24;
const LINE_DOTS = 30;
const MARGIN_DOTS = 24;

interface Drawn {
  readonly svg: string;
  readonly height: number;
}

/** The paper as an SVG picture, one unit for each printer dot. */
export function paperSvg(paper: Paper): string {
  const width = paper.dotsPerLine + 2 * MARGIN_DOTS;
  let top = MARGIN_DOTS;
  const parts: string[] = [];
  for (const each of paper.rows) {
    const drawn = drawRow(each, paper, top, width);
    parts.push(drawn.svg);
    top += drawn.height;
  }
  const height = top + MARGIN_DOTS;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img">`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    `<g font-family="ui-monospace, 'DejaVu Sans Mono', 'Liberation Mono', monospace" fill="#111">`,
    ...parts.filter((part) => part !== ''),
    '</g></svg>',
  ].join('\n');
}

function drawRow(each: PaperRow, paper: Paper, top: number, width: number): Drawn {
  switch (each.kind) {
    case 'feed':
      return { svg: '', height: each.lines * LINE_DOTS };
    case 'cut': {
      const y = top + LINE_DOTS / 2;
      return {
        svg: `<line x1="0" x2="${width}" y1="${y}" y2="${y}" stroke="#111" stroke-width="2" stroke-dasharray="10 8"/>`,
        height: LINE_DOTS,
      };
    }
    case 'code128': {
      const bars = code128Bars(each.text);
      const modules = bars.reduce((sum, bar) => sum + bar, 0);
      let x = MARGIN_DOTS + indent(each.align, modules * each.moduleDots, paper.dotsPerLine);
      const rects: string[] = [];
      bars.forEach((bar, index) => {
        const dots = bar * each.moduleDots;
        if (index % 2 === 0) rects.push(`<rect x="${x}" y="${top}" width="${dots}" height="${each.heightDots}"/>`);
        x += dots;
      });
      return {
        svg: `<g shape-rendering="crispEdges"><title>${escape(each.text)}</title>${rects.join('')}</g>`,
        height: each.heightDots + 6,
      };
    }
    case 'raster': {
      const left = MARGIN_DOTS + indent(each.align, each.bytesPerLine * 8, paper.dotsPerLine);
      const rects = rasterRects(each).map(
        ({ x, y, width: wide, height }) => `<rect x="${left + x}" y="${top + y}" width="${wide}" height="${height}"/>`,
      );
      return {
        svg: `<g shape-rendering="crispEdges">${rects.join('')}</g>`,
        height: each.data.length / each.bytesPerLine,
      };
    }
    case 'text': {
      const cell = paper.dotsPerLine / paper.columns;
      const total = each.runs.reduce((sum, run) => sum + run.text.length * run.wide * cell, 0);
      const tall = Math.max(...each.runs.map((run) => run.tall));
      let x = MARGIN_DOTS + indent(each.align, total, paper.dotsPerLine);
      const parts: string[] = [];
      for (const run of each.runs) {
        const runWidth = run.text.length * run.wide * cell;
        parts.push(drawRun(run, x, top, runWidth, tall));
        x += runWidth;
      }
      return { svg: parts.join(''), height: LINE_DOTS * tall };
    }
  }
}

/** The black of a raster as few rectangles: lines that are alike are drawn as one. */
function rasterRects({ bytesPerLine, data }: Extract<PaperRow, { kind: 'raster' }>) {
  const rects: { x: number; y: number; width: number; height: number }[] = [];
  const lines = data.length / bytesPerLine;
  const sameAs = (a: number, b: number): boolean => {
    for (let at = 0; at < bytesPerLine; at += 1)
      if (data[a * bytesPerLine + at] !== data[b * bytesPerLine + at]) return false;
    return true;
  };
  for (let y = 0; y < lines;) {
    let height = 1;
    while (y + height < lines && sameAs(y, y + height)) height += 1;
    const black = (x: number): boolean => (((data[y * bytesPerLine + (x >> 3)] ?? 0) >> (7 - (x & 7))) & 1) === 1;
    for (let x = 0; x < bytesPerLine * 8;) {
      let width = 0;
      while (x + width < bytesPerLine * 8 && black(x + width)) width += 1;
      if (width > 0) rects.push({ x, y, width, height });
      x += width + 1;
    }
    y += height;
  }
  return rects;
}

function drawRun(run: PaperRun, x: number, top: number, width: number, rowTall: number): string {
  const height = FONT_DOTS * run.tall;
  const y = top + FONT_DOTS * (rowTall - run.tall);
  const band = run.inverse ? `<rect x="${x}" y="${y - 2}" width="${width}" height="${height + 4}" fill="#111"/>` : '';
  const underline = run.underline ? `<rect x="${x}" y="${y + height}" width="${width}" height="2"/>` : '';
  if (run.text.trim() === '') return band + underline;
  const scale = run.wide / run.tall;
  const weight = run.bold ? ' font-weight="700"' : '';
  const fill = run.inverse ? ' fill="#fff"' : '';
  // The printer's cells are a grid; textLength keeps the screen's font on it.
  return (
    band +
    `<text transform="translate(${x} ${y + height * 0.8}) scale(${scale} 1)" font-size="${FONT_DOTS * run.tall * 0.82}" textLength="${width / scale}" lengthAdjust="spacingAndGlyphs" xml:space="preserve"${weight}${fill}>${escape(run.text)}</text>` +
    underline
  );
}

function indent(align: Alignment, used: number, room: number): number {
  if (align === 'left') return 0;
  return Math.max(0, align === 'right' ? room - used : Math.floor((room - used) / 2));
}

function escape(words: string): string {
  return words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
