import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchView, LiveScale } from '#shared/wire/views.ts';
import type { Reading } from '#shared/weighing/types.ts';
import { formatMass, formatMassPlain } from '#shared/units/mass.ts';
import { formatMoney, subtractMoney } from '#shared/units/money.ts';
import { loadWords } from '../i18n/loads.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { isEmpty, totalOf, weighLine } from './weigh-geometry.ts';
import type { Along, Post, WeighLine } from './weigh-geometry.ts';

const left = (at: Along): string => `left:${(at * 100).toFixed(3)}%`;

/** From here on the ceiling's words stand before the post: behind it there is no room. */
const LABEL_TURNS_AT = 0.64;
/** That nothing dearer follows takes more words. */
const LAST_LABEL_TURNS_AT = 0.57;

/** Where the weight is, what it can be wrong by, and where the next bracket begins. Always at the foot of the bench. */
@customElement('bf-weigh-line')
export class WeighLineElement extends LitElement {
  @property({ attribute: false }) view!: BenchView;
  @property({ attribute: false }) live: LiveScale | null = null;
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    const { weigh, units, language } = this.view;
    const line = weigh === null ? null : weighLine(weigh, this.ofThisParcel(), units.mass, language);
    return html`<div class="line">
      ${this.figures()} ${line === null ? html`<div class="bare" aria-hidden="true"></div>` : this.drawn(line)}
      ${this.picture()}
    </div>`;
  }

  private figures(): TemplateResult {
    const reading = this.live?.reading ?? null;
    const { scale } = this.words;
    if (reading === null) {
      return html`<div class="figures">
        <p class="small secondary">${scale.name}</p>
        <p class="mass none">–</p>
        <p class="small">${scale.noReading}</p>
      </div>`;
    }
    const weigh = this.view.weigh;
    const empty = isEmpty(reading);
    const another = this.live?.another === true;
    const toCome = another
      ? loadWords[this.view.language].another
      : weigh === null || empty
        ? ''
        : scale.toCome(this.mass(weigh.toCome));
    const state = reading.condition === 'ok' ? scale.stability[reading.stability] : scale.condition[reading.condition];
    return html`<div class="figures">
      <p class="small secondary">${[scale.name, state].filter((word) => word !== '').join(', ')}</p>
      <p class="mass">${formatMass(reading.mass, reading.unit, reading.places, this.view.language)}</p>
      <p class="small secondary">${empty ? scale.empty : toCome}</p>
    </div>`;
  }

  /** The reading, unless what lies on the scale is not to be weighed as this parcel: its price would be another's. */
  private ofThisParcel(): Reading | null {
    const { live } = this;
    if (live === null || live.another === true) return null;
    return live.needsEmptying && this.view.task.at === 'weigh' ? null : live.reading;
  }

  private weighing(): boolean {
    return this.view.task.at === 'weigh' || this.view.task.at === 'decide';
  }

  private mass(mass: Parameters<typeof formatMass>[0]): string {
    return formatMassPlain(mass, this.view.units.mass, this.view.language);
  }

  private drawn(line: WeighLine): TemplateResult {
    const planned = line.posts.find((post) => post.planned);
    return html`<div class="drawing" aria-hidden="true">
      ${line.expected === null || !this.weighing() ? null : html`<i class="expected" style=${stretch(line.expected)}></i>`}
      <i class="axis"></i>
      ${line.band === null ? null : html`<i class="band" style=${stretch(line.band)}></i>`}
      ${line.ticks.map(
        (tick) =>
          html`<i class="tick" style=${left(tick.at)}></i>
            <span class="tick-text small" style=${left(tick.at)}>${tick.text}</span>`,
      )}
      <span class="unit small">${this.view.units.mass}</span>
      ${line.prices
        .filter(({ at }) => planned === undefined || !underLabel(at, planned))
        .map(
          ({ at, price, tight }) =>
            html`<span class=${`price small ${tight ? 'tight' : ''}`} style=${left(at)}
              >${formatMoney(price, this.view.language)}</span
            >`,
        )}
      ${line.posts.map((post) => this.post(post))}
      ${
        line.diamond === null
          ? null
          : html`<svg class="diamond" style=${left(line.diamond)} width="34" height="48" viewBox="0 0 34 48">
              <path d="M17 1 33 24 17 47 1 24Z" fill="var(--indigo)" stroke="var(--chalk)" stroke-width="2.5" />
            </svg>`
      }
    </div>`;
  }

  private post(post: Post): TemplateResult {
    if (!post.planned) return html`<i class="post" style=${left(post.at)}></i>`;
    const price = this.view.weigh?.brackets[this.view.weigh.planned]?.price;
    const { scale } = this.words;
    const next =
      post.above === null || price === undefined
        ? html`<span class="long">${scale.lastBracket}</span><span class="short">${scale.limit}</span>`
        : html`<span class="long">${scale.nextBracket}</span> +
            ${formatMoney(subtractMoney(post.above, price), this.view.language)}`;
    return html`<i class="post planned" style=${left(post.at)}></i>
      <span class=${`ceiling ${labelBefore(post) ? 'before' : 'behind'}`} style=${left(post.at)}
        >${this.mass(post.ceiling)} · ${next}</span
      >`;
  }

  private picture(): TemplateResult | null {
    const { weigh, units, language } = this.view;
    if (weigh === null) return null;
    const total = totalOf(weigh, this.ofThisParcel());
    const ceiling = weigh.brackets[weigh.planned]?.ceiling;
    const said = this.words.scale.picture(
      total === null ? this.words.scale.empty : this.mass(total),
      formatMass(weigh.uncertainty, units.mass, units.massPlaces + 1, language),
      ceiling === undefined ? this.words.scale.noReading : this.mass(ceiling),
    );
    return html`<p class="only-read">${said}</p>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: block;
        height: 100%;
        container: weigh-line / inline-size;
      }
      .line {
        position: relative;
        display: grid;
        grid-template-columns: minmax(190px, auto) 1fr;
        gap: 36px;
        align-items: center;
        height: 100%;
        padding: 0 44px 0 28px;
      }
      .figures p {
        white-space: nowrap;
      }
      .mass {
        font-size: var(--size-mass, 48px);
        line-height: 1.05;
        font-weight: 700;
      }
      .drawing {
        position: relative;
        height: 118px;
      }
      .drawing > * {
        position: absolute;
      }
      .bare {
        border-top: 4px dashed var(--thread);
      }
      .axis {
        left: 0;
        right: 0;
        top: 60px;
        border-top: 4px solid var(--ink);
      }
      .tick {
        top: 52px;
        width: 3px;
        height: 20px;
        margin-left: -1.5px;
        background: var(--ink);
      }
      .tick-text {
        top: 88px;
        transform: translateX(-50%);
        white-space: nowrap;
      }
      .unit {
        top: 46px;
        right: -34px;
        color: var(--walnut);
      }
      .price {
        top: 8px;
        transform: translateX(-50%);
        color: var(--walnut);
        white-space: nowrap;
      }
      .expected {
        top: 78px;
        height: 0;
        border-top: 5px dotted var(--verdigris);
      }
      .band {
        top: 36px;
        height: 52px;
        border: 2px solid var(--on-weld);
        background: repeating-linear-gradient(-45deg, var(--weld) 0 10px, var(--on-weld) 10px 13px);
        outline: 1px solid var(--weld);
      }
      .post {
        top: 38px;
        width: 4px;
        height: 48px;
        margin-left: -2px;
        background: var(--ink);
      }
      .post.planned {
        top: 4px;
        width: 8px;
        height: 84px;
        margin-left: -4px;
        background: var(--madder);
      }
      .ceiling {
        top: 2px;
        color: var(--madder);
        font-size: 24px;
        font-weight: 700;
        white-space: nowrap;
        padding: 0 14px;
      }
      .ceiling.before {
        transform: translateX(-100%);
      }
      .diamond {
        top: 38px;
        margin-left: -17px;
      }
      .short {
        display: none;
      }
      @container weigh-line (max-width: 1100px) {
        .long {
          display: none;
        }
        .short {
          display: inline;
        }
      }
      @media (max-width: 900px) {
        .line {
          grid-template-columns: minmax(170px, auto) 1fr;
          gap: 30px;
        }
        .tight {
          display: none;
        }
      }
    `,
  ];
}

function stretch([from, to]: readonly [Along, Along]): string {
  return `${left(from)};width:${((to - from) * 100).toFixed(3)}%`;
}

/** True where the planned ceiling's words would lie over a price. */
function underLabel(at: Along, post: Post): boolean {
  const reach = 0.45;
  return labelBefore(post) ? at < post.at && at > post.at - reach : at > post.at && at < post.at + reach;
}

function labelBefore({ at, above }: Post): boolean {
  return at > (above === null ? LAST_LABEL_TURNS_AT : LABEL_TURNS_AT);
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-weigh-line': WeighLineElement;
  }
}
