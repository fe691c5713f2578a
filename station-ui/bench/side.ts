import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchView, ContainerTag, OrderTag, PlanDoubt } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { formatMassPlain } from '#shared/units/mass.ts';
import { formatMoney } from '#shared/units/money.ts';
import '../components/doubts.ts';
import '../components/piece-list.ts';
import '../components/swing-tag.ts';
import { millimetreWords } from '../components/lengths.ts';
import { shape } from '../components/shapes.ts';
import { unbroken } from '../components/unbroken.ts';
import { sideWorkWords } from '../i18n/side-work.ts';
import type { Words } from '../i18n/words.ts';
import { addressWords, doubtsInWords } from '../i18n/addresses.ts';
import { benchLabelWords } from '../i18n/labels.ts';
import { dayAndTime, dayWords } from '../i18n/time.ts';
import { base, benchType } from '../theme/styles.ts';
import { gapsInWords } from './customs-gaps.ts';

/** Where it matters which piece the packer is at; while gathering, the pieces fill the middle. */
const ABOUT_PIECES: ReadonlySet<string> = new Set(['look-over', 'fold', 'fill']);

/** What is told with the container: all at the beginning; what the weight may differ by, again when it is weighed. */
function doubtsHere(doubts: readonly PlanDoubt[], at: BenchView['task']['at']): readonly PlanDoubt[] {
  if (at === 'gather') return doubts.filter(({ about }) => about !== 'promise');
  return at === 'weigh' || at === 'decide' ? doubts.filter(({ about }) => about === 'assumed') : [];
}

/** The order, its pieces, and the container and service that were chosen for it, and why. */
@customElement('bf-side')
export class Side extends LitElement {
  @property({ attribute: false }) view!: BenchView;
  @property({ attribute: false }) words!: Words;
  @property({ attribute: false }) language: Language = 'en';

  override render(): TemplateResult {
    const { order, container, task } = this.view;
    return html`${order === null ? null : this.order(order)}
    ${
      order === null || !ABOUT_PIECES.has(task.at)
        ? null
        : html`<bf-piece-list .pieces=${order.pieces} .words=${this.words}></bf-piece-list>`
    }
    ${this.address()} ${this.customs()} ${container === null ? null : this.container(container, this.hasRoom(order))}`;
  }

  /** Whether what the plan saves may be told, too: beside a note, a promise or several pieces it would be cut off. */
  private hasRoom(order: OrderTag | null): boolean {
    if (order === null) return true;
    const crowded = ABOUT_PIECES.has(this.view.task.at) && (order.pieces.length > 2 || order.arriveBy !== null);
    return order.note === null && !crowded;
  }

  private order(order: OrderTag): TemplateResult {
    const { bench } = this.words;
    const pieces = order.pieces.reduce((sum, piece) => sum + piece.due, 0);
    const parcel = order.parcels > 1 ? ` · ${bench.parcel(order.parcel + 1, order.parcels)}` : '';
    return html`<bf-swing-tag
      class=${ABOUT_PIECES.has(this.view.task.at) ? 'folding' : ''}
      heading=${unbroken(bench.order(order.id))}
    >
      <p class="small secondary count">${bench.pieces(pieces)}${parcel}</p>
      <p class="small secondary">
        ${bench.shipBy(dayAndTime(order.shipBy, this.language, { now: new Date(), timeZone: this.view.timeZone }))}
      </p>
      ${this.lies(order)} ${this.promise(order)}
      ${
        order.note === null
          ? null
          : html`<p class="small note">
              ${shape('attention', 26)}
              <span class=${`words ${ABOUT_PIECES.has(this.view.task.at) ? 'short' : ''}`}
                ><b class=${ABOUT_PIECES.has(this.view.task.at) ? 'only-read' : ''}>${bench.buyerNote}:</b>
                ${order.note}</span
              >
            </p>`
      }
    </bf-swing-tag>`;
  }

  /** What to ask about the address before the parcel is closed; what the label says then is another's word. */
  private address(): TemplateResult | null {
    const doubts = this.view.address ?? [];
    const { at } = this.view.task;
    if (doubts.length === 0 || at === 'fold' || at === 'label') return null;
    const [first = ''] = doubtsInWords(doubts, this.language);
    const more = doubts.length === 1 ? '' : ` (+${String(doubts.length - 1)})`;
    return html`<p class="small note" data-address=${doubts.length}>
      ${shape('attention', 26)} <span class="words"><b>${addressWords[this.language].bench}:</b> ${first}${more}</span>
    </p>`;
  }

  /** What the customs are still to be told, until the label shows it itself. */
  private customs(): TemplateResult | null {
    const gaps = this.view.customs ?? [];
    if (gaps.length === 0 || this.view.task.at === 'fold') return null;
    const [first = ''] = gapsInWords(gaps, this.language);
    const more = gaps.length === 1 ? '' : ` (+${String(gaps.length - 1)})`;
    return html`<p class="small note" data-customs=${gaps.length}>
      ${shape('attention', 26)}
      <span class="words"><b>${benchLabelWords[this.language].customs}:</b> ${first}${more}</span>
    </p>`;
  }

  /** Where the pieces lie together, as long as they are gathered. */
  private lies({ lies }: OrderTag): TemplateResult | null {
    if (lies === undefined || this.view.task.at !== 'gather') return null;
    return html`<p class="small lies" data-lies=${lies.at}>
      <b>${sideWorkWords[this.language].lies[lies.at](lies.number)}</b>
    </p>`;
  }

  /** What was promised is told at the beginning, and whether it cannot be kept. */
  private promise({ arriveBy }: OrderTag): TemplateResult | null {
    if (this.view.task.at !== 'gather') return null;
    const broken = this.view.container?.doubts.filter(({ about }) => about === 'promise') ?? [];
    if (broken.length > 0) return this.doubts(broken);
    return arriveBy === null
      ? null
      : html`<p class="small secondary arrive">${this.words.bench.arriveBy(dayWords(arriveBy, this.language))}</p>`;
  }

  private doubts(doubts: readonly PlanDoubt[]): TemplateResult | null {
    return doubts.length === 0
      ? null
      : html`<bf-doubts .doubts=${doubts} .words=${this.words} .language=${this.language}></bf-doubts>`;
  }

  private container(container: ContainerTag, hasRoom: boolean): TemplateResult {
    const { bench, scale } = this.words;
    const { units, weigh } = this.view;
    const planned = weigh?.brackets[weigh.planned];
    const price = formatMoney(container.price, this.language);
    const { doubled } = container;
    const doubts = doubtsHere(container.doubts, this.view.task.at);
    return html`<bf-swing-tag
      class=${ABOUT_PIECES.has(this.view.task.at) ? `folding at-${this.view.task.at}` : ''}
      heading=${doubled === null ? unbroken(container.name[this.language]) : bench.bags.heading}
    >
      ${
        doubled === null
          ? null
          : html`<p class="small doubled">${unbroken(bench.bags.inner(doubled.inner[this.language]))}</p>
              <p class="small doubled">${unbroken(bench.bags.outer(doubled.outer[this.language]))}</p>`
      }
      <p class="small"><b>${container.serviceName[this.language]}</b></p>
      <p class="small">
        ${planned === undefined ? price : scale.paidUpTo(formatMassPlain(planned.ceiling, units.mass, this.language), price)}
      </p>
      ${
        doubts.length > 0 || (doubled !== null && !hasRoom)
          ? null
          : html`<p class="small secondary why">
              ${bench.fits[container.fit]} ·
              ${unbroken(bench.spare(`${millimetreWords(container.spare, units.length, this.language)} ${units.length}`))}
            </p>`
      }
      ${container.piles > 1 ? html`<p class="small piles"><b>${bench.bags.piles(container.piles)}</b></p>` : null}
      ${this.doubts(doubts)}
      ${
        container.saves === null || !hasRoom || doubts.length > 1 || doubled !== null
          ? null
          : html`<p class="small secondary saves">
              ${unbroken(bench.saves(formatMoney(container.saves.by, this.language), container.saves.over[this.language]))}
            </p>`
      }
    </bf-swing-tag>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: flex;
        flex-direction: column;
        gap: 10px;
        min-height: 0;
        --size-small: 20px;
        overflow: hidden;
      }
      .note {
        display: flex;
        gap: 10px;
        margin-top: 6px;
      }
      .words {
        display: -webkit-box;
        -webkit-line-clamp: 4;
        -webkit-box-orient: vertical;
        overflow: hidden;
      }
      .words.short {
        -webkit-line-clamp: 2;
      }
      .why {
        display: -webkit-box;
        -webkit-line-clamp: 2;
        -webkit-box-orient: vertical;
        overflow: hidden;
      }
      @media (max-height: 680px) {
        :host {
          gap: 6px;
        }
        .why,
        .saves,
        .at-fill .doubled,
        .folding .count {
          display: none;
        }
        .words {
          -webkit-line-clamp: 2;
        }
        .words.short {
          -webkit-line-clamp: 1;
        }
      }
      bf-piece-list {
        padding: 0 4px;
      }
      @media (max-width: 900px) {
        :host {
          display: grid;
          grid-auto-flow: column;
          grid-auto-columns: minmax(0, 1fr);
          align-items: start;
        }
        .why,
        .folding .saves,
        .doubled ~ .saves {
          display: none;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-side': Side;
  }
}
