import { LitElement, css, html, svg } from 'lit';
import type { SVGTemplateResult, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { DrawnPanel, FoldDrawing, FoldedBlock, Point } from '#shared/folding/types.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { Language } from '#shared/words/language.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { archedArrow, boxAfter, outline, project, turnsOver } from './fold-geometry.ts';
import type { Projection } from './fold-geometry.ts';
import { millimetreWords } from './lengths.ts';

/** Room around the cloth for the sizes and the words, in pixels. */
const ROOM = { left: 128, top: 44, right: 24, bottom: 34 };

/** Pixels for "fold here" beside the fold line. */
const ROOM_FOR_WORDS = 120;
/** No lower than this; and where it is low, words below the cloth have less room. */
const LOWEST = 86;
const LOW = 180;
/** Lower than this, the picture needs the room that the reason would take. */
const ROOM_FOR_WHY = 280;

/** One fold step as its geometry says it: nothing here knows how to fold. */
@customElement('bf-fold-drawing')
export class FoldDrawingElement extends LitElement {
  @property({ attribute: false }) drawing!: FoldDrawing;
  @property({ attribute: false }) block!: FoldedBlock;
  @property({ attribute: false }) unit: LengthUnit = 'in';
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) words!: Words;
  @property() said = '';
  /** why it is folded so, for a learner; or '' */
  @property() why = '';
  /** the final size is what the picture is about */
  @property({ type: Boolean }) large = false;
  @state() private size = { width: 640, height: 380 };

  private readonly watcher =
    typeof ResizeObserver === 'undefined'
      ? null
      : new ResizeObserver(([entry]) => {
          if (entry === undefined) return;
          const { width, height } = entry.contentRect;
          if (width > 0 && height > 0) this.size = { width, height };
        });

  override connectedCallback(): void {
    super.connectedCallback();
    this.watcher?.observe(this);
  }

  override disconnectedCallback(): void {
    this.watcher?.disconnect();
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const beside = this.size.width > 560 ? 236 : 190;
    const width = Math.max(160, this.size.width - beside);
    const height = Math.max(LOWEST, this.size.height);
    const bottom = height < LOW ? 12 : ROOM.bottom;
    const room = {
      x: ROOM.left,
      y: ROOM.top,
      width: width - ROOM.left - ROOM.right,
      height: height - ROOM.top - bottom,
    };
    const at = project(this.drawing.bounds, room);
    return html`<div class="both" style="grid-template-columns:${width}px 1fr">
      <svg
        class="cloth"
        width=${width}
        height=${height}
        role="img"
        aria-label=${this.words.bench.foldPicture(this.said)}
      >
        ${hatch} ${this.drawing.still.map((panel) => this.panel(panel, at, 'still'))}
        ${this.drawing.landing.map((panel) => this.panel(panel, at, 'landing'))} ${this.moving(at)}
        ${this.foldLine(at, width, height)} ${this.arrow(at)} ${this.sizes(at)}
      </svg>
      ${this.endsAs(at.scale, beside, height)}
    </div>`;
  }

  private panel(panel: DrawnPanel, at: Projection, part: 'still' | 'moving' | 'landing'): SVGTemplateResult {
    const path = outline(panel.points, at.to);
    return svg`<path class="${part} ${panel.side}" data-part=${part} d=${path}></path>
      ${part === 'landing' ? svg`<path class="hatching" d=${path} fill="url(#hidden)"></path>` : null}`;
  }

  /** What moves, drawn where it lies; a copy of it turns over the fold line once. */
  private moving(at: Projection): SVGTemplateResult {
    const { drawing } = this;
    const lying = drawing.moving.map((panel) => this.panel(panel, at, 'moving'));
    if (drawing.foldLine === undefined || !turnsOver(drawing)) return svg`${lying}`;
    const [a, b] = [at.to(drawing.foldLine[0]), at.to(drawing.foldLine[1])];
    const angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
    const onto = `translate(${String(a[0])} ${String(a[1])}) rotate(${String(angle)})`;
    const off = `rotate(${String(-angle)}) translate(${String(-a[0])} ${String(-a[1])})`;
    return svg`${lying}<g transform=${onto}><g class="turning"><g transform=${off}>
      ${drawing.moving.map((panel) => svg`<path class="turns" d=${outline(panel.points, at.to)}></path>`)}
    </g></g></g>`;
  }

  private foldLine(at: Projection, width: number, height: number): SVGTemplateResult | null {
    const { foldLine } = this.drawing;
    if (foldLine === undefined) return null;
    const [a, b] = longer(at.to(foldLine[0]), at.to(foldLine[1]), 10);
    const low = a[1] > b[1] ? a : b;
    const upright = Math.abs(a[1] - b[1]) > Math.abs(a[0] - b[0]);
    // Beside the foot of an upright line, beside the right end of a level one.
    const end = upright ? low : a[0] > b[0] ? a : b;
    const roomRight = end[0] + 10 + ROOM_FOR_WORDS < width;
    const x = end[0] + (roomRight ? 10 : -10);
    const y = upright ? Math.min(height - 8, end[1] + 18) : end[1] + (roomRight ? 8 : -10);
    return svg`<line class="fold-under" x1=${a[0]} y1=${a[1]} x2=${b[0]} y2=${b[1]}></line>
      <line class="fold-line" x1=${a[0]} y1=${a[1]} x2=${b[0]} y2=${b[1]}></line>
      <text class="fold-words" x=${x} y=${y} text-anchor=${roomRight ? 'start' : 'end'}
        >${this.words.bench.foldHere}</text>`;
  }

  private arrow(at: Projection): SVGTemplateResult | null {
    const { arrow } = this.drawing;
    if (arrow === undefined) return null;
    const drawn = archedArrow([at.to(arrow[0]), at.to(arrow[1])], 30);
    return svg`<path class="arch-under" d=${drawn.arch}></path><path class="arch" d=${drawn.arch}></path>
      <path class="arrow-head" d=${drawn.head}></path>`;
  }

  /** The real sizes after the step, at the top and the left edge. */
  private sizes(at: Projection): SVGTemplateResult {
    const box = boxAfter(this.drawing);
    const [x, y] = at.to([box.x, box.y]);
    const [right, bottom] = at.to([box.x + box.width, box.y + box.height]);
    const top = at.to([this.drawing.bounds.x, this.drawing.bounds.y])[1] - 16;
    const side = at.to([this.drawing.bounds.x, this.drawing.bounds.y])[0] - 20;
    const { width, length } = this.drawing.endsAs;
    return svg`<path class="size" d=${`M${String(x)} ${String(top - 8)}v16M${String(x)} ${String(top)}H${String(right)}M${String(right)} ${String(top - 8)}v16`}></path>
      <text class="size-words" data-size="width" x=${(x + right) / 2} y=${top - 9} text-anchor="middle"
        >${millimetreWords(width, this.unit, this.language)} ${this.unit}</text>
      <path class="size" d=${`M${String(side - 8)} ${String(y)}h16M${String(side)} ${String(y)}V${String(bottom)}M${String(side - 8)} ${String(bottom)}h16`}></path>
      <text class="size-words" data-size="length" x=${side - 14} y=${(y + bottom) / 2 + 8} text-anchor="end"
        >${millimetreWords(length, this.unit, this.language)} ${this.unit}</text>`;
  }

  /** The final block beside the cloth, at the same scale where it fits. */
  private endsAs(scale: number, beside: number, height: number): TemplateResult {
    const { width, length, thickness } = this.block;
    const why = height < ROOM_FOR_WHY ? '' : this.why;
    const shrunk = Math.max(
      0.1,
      Math.min(1, (beside - 24) / (width * scale), (height - (why === '' ? 110 : 240)) / (length * scale)),
    );
    const size = [width, length, thickness].map((side) => millimetreWords(side, this.unit, this.language)).join(' × ');
    return html`<div class="ends">
      <div
        class="block"
        style="width:${(width * scale * shrunk).toFixed(1)}px;height:${(length * scale * shrunk).toFixed(1)}px"
        aria-hidden="true"
      ></div>
      <p class="small secondary">${this.words.bench.endsAs}</p>
      <p class=${`small size-of ${this.large ? 'large' : ''}`}>${size} ${this.unit}</p>
      ${why === '' ? null : html`<p class="small secondary why">${why}</p>`}
    </div>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: block;
        overflow: hidden;
        min-height: 0;
      }
      .both {
        display: grid;
        height: 100%;
      }
      .ends {
        align-self: center;
      }
      .block {
        border: 3px dotted var(--ink);
        background: var(--indigo-pale);
        margin-bottom: 10px;
        max-width: 100%;
      }
      .why {
        margin-top: 14px;
      }
      .size-of {
        font-weight: 700;
      }
      .size-of.large {
        font-size: 30px;
        line-height: 1.15;
      }
      svg {
        display: block;
      }
      path {
        stroke-linejoin: round;
      }
      .still,
      .moving,
      .landing {
        stroke: var(--ink);
        stroke-width: 3;
      }
      .face {
        fill: var(--indigo-tint);
      }
      .back {
        fill: var(--indigo-pale);
      }
      .landing {
        stroke-width: 2;
        stroke-dasharray: 7 5;
      }
      .hatching {
        pointer-events: none;
      }
      .turns {
        fill: var(--indigo-tint);
        stroke: var(--indigo);
        stroke-width: 3;
      }
      .turning {
        opacity: 0;
        animation: turn-over 4.2s ease-in-out 0.5s 1;
      }
      @keyframes turn-over {
        0% {
          transform: scaleY(1);
          opacity: 0.92;
        }
        62% {
          transform: scaleY(-1);
          opacity: 0.92;
        }
        82% {
          transform: scaleY(-1);
          opacity: 0.92;
        }
        100% {
          transform: scaleY(-1);
          opacity: 0;
        }
      }
      .fold-under {
        stroke: var(--chalk);
        stroke-width: 8;
      }
      .fold-line {
        stroke: var(--madder);
        stroke-width: 5;
        stroke-dasharray: 14 8;
      }
      .fold-words,
      .size-words {
        font-size: 24px;
        fill: var(--ink);
        paint-order: stroke;
        stroke: var(--chalk);
        stroke-width: 5px;
      }
      .size-words {
        fill: var(--walnut);
      }
      .size {
        fill: none;
        stroke: var(--walnut);
        stroke-width: 2.5;
      }
      .arch-under {
        fill: none;
        stroke: var(--chalk);
        stroke-width: 12;
      }
      .arch {
        fill: none;
        stroke: var(--indigo);
        stroke-width: 7;
        stroke-linecap: round;
      }
      .arrow-head {
        fill: var(--indigo);
        stroke: var(--chalk);
        stroke-width: 1.5;
      }
      @media (prefers-reduced-motion: reduce) {
        .turning {
          display: none;
        }
      }
    `,
  ];
}

const hatch = svg`<defs><pattern id="hidden" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
  <line x1="0" y1="0" x2="0" y2="9" stroke="var(--walnut)" stroke-width="2.2" opacity="0.55"></line></pattern></defs>`;

function longer(a: Point, b: Point, by: number): readonly [Point, Point] {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const ux = ((b[0] - a[0]) / length) * by;
  const uy = ((b[1] - a[1]) / length) * by;
  return [
    [a[0] - ux, a[1] - uy],
    [b[0] + ux, b[1] + uy],
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-fold-drawing': FoldDrawingElement;
  }
}
