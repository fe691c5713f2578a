import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { RISKS, type Risk } from '#shared/day-board/risk.ts';
import type { DayBench, DayBoard, DayCollection, DayOrder } from '#shared/wire/day.ts';
import '../components/data-table.ts';
import { columnsOf } from '../components/table-rows.ts';
import { shape, type Standing } from '../components/shapes.ts';
import { dayWords } from '../i18n/day.ts';
import { helpWords } from '../i18n/help.ts';
import { wordsOf } from '../i18n/language.ts';
import { tableWords } from '../i18n/table.ts';
import { dayAndTime } from '../i18n/time.ts';
import { benchName } from './bench-name.ts';
import { followDay } from './day-link.ts';
import { dayStyles } from './day-styles.ts';
import { reasonInWords } from '../i18n/reason-in-words.ts';
import './release-order.ts';
import { PageElement } from './page-element.ts';

const STANDING: Readonly<Record<Risk, Standing>> = { missed: 'stop', late: 'stop', tight: 'attention', safe: 'well' };
/** On the large screen as many of the next collections as can be read across a room. */
const WALL_COLLECTIONS = 6;

/** The day, live: collections with their risk, benches and who is on them, devices in trouble, what was set aside. */
@customElement('bf-day')
export class Day extends PageElement {
  /** across the room: large, without tables */
  @property({ type: Boolean, reflect: true }) wall = false;
  @property({ attribute: false }) follow = followDay;
  @state() private board: DayBoard | null = null;
  @state() private linked = true;
  /** the collection whose orders are listed; all where null */
  @state() private only: string | null = null;
  /** runs on between two boards, so that the time left does */
  @state() private ticks = 0;
  private boardAt = 0;
  private stop: (() => void) | null = null;
  private timer: ReturnType<typeof setInterval> | undefined;

  override connectedCallback(): void {
    super.connectedCallback();
    this.stop = this.follow(
      (board) => {
        this.board = board;
        this.boardAt = performance.now();
        if (!board.collections.some(({ key }) => key === this.only)) this.only = null;
      },
      (up) => (this.linked = up),
    );
    this.timer = setInterval(() => (this.ticks += 1), 15_000);
  }

  override disconnectedCallback(): void {
    this.stop?.();
    clearInterval(this.timer);
    super.disconnectedCallback();
  }

  private get now(): number {
    return (this.board?.now ?? 0) + performance.now() - this.boardAt;
  }

  override render(): TemplateResult {
    const words = dayWords[this.language];
    const { board } = this;
    if (board === null) return html`<p>${tableWords[this.language].loading}</p>`;
    const open = board.orders.length - board.orders.filter(({ state: each }) => each === 'set-aside').length;
    const aside = board.orders.filter(({ state: each }) => each === 'set-aside');
    return html`<div class="heading" data-ticks=${this.ticks}>
        ${this.wall ? html`<h1>${words.title}</h1>` : html`<h2>${words.title}</h2>`}
        <p class="said" role="status" data-linked=${String(this.linked)}>
          ${shape(this.linked ? 'well' : 'stop', 20)} ${this.linked ? words.live : words.lost}
        </p>
        <p>
          <b data-open=${open}>${words.waiting(open)}</b> · <span data-done>${words.doneToday(board.doneToday)}</span>
        </p>
        <p class="secondary">${words.pace(Math.round(board.pace.mean), board.working, board.pace.orders)}</p>
        ${board.overdue === 0 ? null : html`<p class="said">${shape('attention', 22)} <b>${words.overdue(board.overdue)}</b></p>`}
        <button type="button" class="no-print" data-wall @click=${this.turnWall}>
          ${this.wall ? words.leaveWall : words.wall}
        </button>
      </div>
      ${open + aside.length === 0 ? html`<p>${words.nothingOpen}</p>` : null}
      <section>
        <h2 class="only-read">${words.collections}</h2>
        <div class="collections">
          ${(this.wall ? board.collections.slice(0, WALL_COLLECTIONS) : board.collections).map((each) => this.collection(each, board))}
        </div>
      </section>
      <section>
        <h2 class="only-read">${words.benches}</h2>
        <div class="benches">${board.benches.map((bench) => this.bench(bench))}</div>
      </section>
      ${this.wall ? this.aside(aside) : this.orders(board)}`;
  }

  private when(instant: string, board: DayBoard): string {
    return dayAndTime(instant, this.language, { now: new Date(board.now), timeZone: board.timeZone });
  }

  private collection(each: DayCollection, board: DayBoard): TemplateResult {
    const words = dayWords[this.language];
    const left = Math.round((Date.parse(each.key) - this.now) / 60_000);
    const carriers = each.carriers.map((name) => name[this.language]).join(', ');
    const worst = RISKS.find((risk) => each.risks[risk] > 0);
    return html`<article class="collection kraft" data-collection=${each.key} data-risk=${worst ?? 'none'}>
      <h3>${words.collection(this.when(each.key, board), carriers === '' ? words.noCarrier : carriers)}</h3>
      <p>
        <b>${left < 0 ? words.gone : words.left(words.time(left))}</b>
        <span class="secondary">${words.needs(words.time(Math.ceil(each.needs / 60)))}</span>
      </p>
      <ul>
        ${RISKS.filter((risk) => each.risks[risk] > 0).map((risk) => html`<li class="said">${shape(STANDING[risk], 20)} ${words.riskCounts[risk](each.risks[risk])}</li>`)}
        ${each.packing === 0 ? null : html`<li class="said">${shape('current', 20)} ${words.packing(each.packing)}</li>`}
        ${each.setAside === 0 ? null : html`<li class="said">${shape('attention', 20)} ${words.setAside(each.setAside)}</li>`}
      </ul>
      ${
        this.wall
          ? null
          : html`<button
              type="button"
              aria-pressed=${this.only === each.key ? 'true' : 'false'}
              data-only=${each.key}
              @click=${() => (this.only = this.only === each.key ? null : each.key)}
            >
              ${this.only === each.key ? words.allOrders : words.itsOrders}<span class="only-read">
                ${this.when(each.key, board)}</span
              >
            </button>`
      }
    </article>`;
  }

  private bench(bench: DayBench): TemplateResult {
    const words = dayWords[this.language];
    const screen = wordsOf(this.language);
    const minutes = bench.since === null ? 0 : Math.max(0, Math.round((this.now - bench.since) / 60_000));
    return html`<article class="bench" data-bench=${bench.id}>
      <h3>${bench.name}</h3>
      <p class="said">
        ${shape(bench.order === null ? 'waiting' : 'current', 20)} <b>${bench.packer ?? words.nobody}</b>
      </p>
      <p>${bench.order === null ? words.free : words.at(bench.order, screen.steps[bench.step], words.time(minutes))}</p>
      ${bench.help ? html`<p class="said" data-help>${shape('attention', 22)} <b>${helpWords[this.language].asks([bench.name])}</b></p>` : null}
      ${bench.order === null || bench.step === 'done' || this.wall ? null : html`<bf-release-order .order=${bench.order} .language=${this.language}></bf-release-order>`}
      ${
        bench.trouble.length === 0
          ? html`<p class="said secondary">${shape('well', 18)} ${words.devicesWell}</p>`
          : bench.trouble.map(
              (each) =>
                html`<p class="said" data-trouble=${each.device}>
                  ${shape(each.state === 'lost' || each.state === 'faulty' ? 'stop' : 'attention', 20)}
                  <b>${screen.devices[each.device]}: ${screen.deviceStates[each.state]}</b>
                  ${screen.troubles[each.trouble]}
                </p>`,
            )
      }
    </article>`;
  }

  private reason(reason: string | null): string {
    return reasonInWords(reason, wordsOf(this.language), this.language) ?? '';
  }

  private aside(orders: readonly DayOrder[]): TemplateResult | null {
    if (orders.length === 0) return null;
    const words = dayWords[this.language];
    return html`<section>
      <h3>${words.asideTitle}</h3>
      <ul class="aside">
        ${orders.slice(0, 8).map((each) => html`<li class="said">${shape('attention', 24)} <b>${each.id}</b> ${this.reason(each.reason)}</li>`)}
      </ul>
    </section>`;
  }

  private orders(board: DayBoard): TemplateResult {
    const words = dayWords[this.language];
    const rows = this.only === null ? board.orders : board.orders.filter((each) => each.collection === this.only);
    return html`<section class="seamed">
      <h2>${words.orders}</h2>
      <bf-data-table
        file="day"
        .language=${this.language}
        .name=${words.orders}
        .columns=${this.columns(board)}
        .rows=${rows}
        .keyOf=${(row: unknown) => (row as DayOrder).id}
      ></bf-data-table>
    </section>`;
  }

  private columns(board: DayBoard) {
    const words = dayWords[this.language];
    const { columns } = words;
    return columnsOf<DayOrder>([
      { key: 'id', title: columns.id, value: (row) => row.id, cell: (row) => html`<b>${row.id}</b>` },
      { key: 'buyer', title: columns.buyer, value: (row) => row.buyer },
      { key: 'pieces', title: columns.pieces, number: true, value: (row) => row.pieces },
      {
        key: 'leaves',
        title: columns.leaves,
        value: (row) => row.collection,
        cell: (row) => html`<span class="nowrap">${this.when(row.collection, board)}</span>`,
      },
      {
        key: 'risk',
        title: columns.risk,
        value: (row) => (row.risk === null ? null : RISKS.indexOf(row.risk)),
        written: (row) => (row.risk === null ? '' : words.risks[row.risk]),
        cell: (row) =>
          row.risk === null
            ? ''
            : html`<span class="said nowrap" data-risk=${row.risk}
                >${shape(STANDING[row.risk], 18)} ${words.risks[row.risk]}</span
              >`,
      },
      {
        key: 'chance',
        title: columns.chance,
        number: true,
        value: (row) => row.chance,
        cell: (row) => (row.chance === null ? '' : `${String(row.chance)} %`),
      },
      { key: 'state', title: columns.state, value: (row) => words.states[row.state] },
      { key: 'bench', title: columns.bench, value: (row) => benchName(row.bench, this.board?.benches ?? []) },
      { key: 'reason', title: columns.reason, value: (row) => this.reason(row.reason) },
    ]);
  }

  private readonly turnWall = (): void => {
    this.dispatchEvent(new CustomEvent('bf-wall', { detail: !this.wall }));
  };

  static override styles = [
    ...PageElement.styles,
    dayStyles,
    css`
      .nowrap {
        white-space: nowrap;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-day': Day;
  }
}
