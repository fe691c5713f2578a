import { html, nothing } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { PracticeOption, PracticeTask } from '#shared/wire/practice.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { millimetreWords } from '../../components/lengths.ts';
import { shape } from '../../components/shapes.ts';
import { practiceWords } from '../../i18n/practice.ts';
import { dayAndTime } from '../../i18n/time.ts';
import { optionName, practiceHeading } from './practice-words.ts';
import { practiceStyles } from './practice-styles.ts';
import { TaskElement, instructionClass } from './task-element.ts';

/** Learning on invented orders: what to practise, a round and its answer, a skill and who signs it off, one's own progress. */
@customElement('bf-task-practice')
export class TaskPractice extends TaskElement {
  @property({ attribute: false }) task!: PracticeTask;

  override render(): TemplateResult {
    const heading = practiceHeading(this.task, this.language);
    return html`<h1 class=${instructionClass(heading)}>${heading}</h1>
      ${this.notice()} ${this.body()}`;
  }

  private get said() {
    return practiceWords[this.language];
  }

  private notice(): TemplateResult | null {
    const { notice } = this.task;
    if (notice === null) return null;
    return html`<p class="say told" role="status" data-practice-notice=${notice.code}>
      ${shape(notice.tone, 32)} ${this.said.notices[notice.code](notice.values)}
    </p>`;
  }

  private body(): TemplateResult {
    switch (this.task.screen) {
      case 'menu':
        return html`<p class="say secondary">${this.task.person === null ? this.said.nobody : this.said.menuHow}</p>
          ${this.options()}`;
      case 'skill':
        return this.skill();
      case 'preparing':
        return html`<p class="say">${this.said.preparing}</p>`;
      case 'choose':
        return this.choose();
      case 'spot':
        return this.spot();
      case 'progress':
        return this.progress();
    }
  }

  private options(): TemplateResult {
    const { options, answer } = this.task;
    return html`<ul class=${`fill options ${options.length > 4 ? 'many' : ''}`}>
      ${options.map((option, index) => html`<li>${answer === null ? this.open(option, index) : this.answered(option)}</li>`)}
    </ul>`;
  }

  private open(option: PracticeOption, index: number): TemplateResult {
    const marked = this.task.marked === index;
    const note = this.note(option);
    return html`<button
      type="button"
      class=${marked ? 'marked' : ''}
      data-option=${option.id}
      aria-current=${marked ? 'true' : nothing}
      @click=${() => {
        this.dispatchEvent(new CustomEvent('bf-chosen', { detail: option.id, bubbles: true, composed: true }));
      }}
    >
      ${marked ? shape('current', 30) : null}
      <span><b>${this.nameOf(option)}</b>${note === '' ? null : html`<span class="note">${note}</span>`}</span>
    </button>`;
  }

  private answered(option: PracticeOption): TemplateResult {
    const { said } = this;
    const chosen = this.task.answer?.chosen === option.id;
    const word = option.mark === 'right' ? said.right : option.mark === 'wrong' ? said.wrong : '';
    return html`<div class=${`done ${option.mark}`} data-option=${option.id} data-mark=${option.mark}>
      ${shape(option.mark === 'right' ? 'well' : option.mark === 'wrong' ? 'stop' : 'waiting', 36)}
      <span
        ><b>${this.nameOf(option)}</b> ${word === '' ? null : html`<b class="word">${word}</b>`}
        ${chosen ? html`<span class="secondary">(${said.yourAnswer})</span>` : null}
        ${option.why === null ? null : html`<span class="note">${this.in(option.why)}</span>`}</span
      >
    </div>`;
  }

  private nameOf(option: PracticeOption): string {
    return optionName(option, this.language);
  }

  /** What is said under an option's name: how far a skill or an exercise of it is. */
  private note({ id }: PracticeOption): string {
    const { said, task } = this;
    const exercise = task.skill?.exercises.find((each) => each.exercise === id);
    if (exercise !== undefined) return said.inARow(Math.min(exercise.inARow, exercise.needed), exercise.needed);
    const skill = task.skills.find((each) => `skill:${each.id}` === id);
    if (skill === undefined) return '';
    if (skill.signed !== null) return said.signed(skill.signed.by, this.day(skill.signed.at));
    return skill.ready ? said.ready : said.notSigned;
  }

  private day(at: number): string {
    return dayAndTime(new Date(at).toISOString(), this.language, { now: new Date(), timeZone: this.view.timeZone });
  }

  private skill(): TemplateResult {
    const { said, task } = this;
    const { skill, signing, score } = task;
    if (skill === null) return html``;
    if (signing !== null) {
      return html`<p class="say ask">
        ${shape('attention', 60)} <b>${said.signing(signing, this.in(skill.name), task.person ?? '')}</b>
      </p>`;
    }
    const standing =
      skill.signed !== null
        ? said.signed(skill.signed.by, this.day(skill.signed.at))
        : skill.ready
          ? `${said.ready} · ${said.signHow}`
          : `${said.notSigned} · ${said.notReady}`;
    return html`<p class="say standing">
        ${shape(skill.signed !== null ? 'well' : skill.ready ? 'attention' : 'waiting', 30)} ${standing}
        ${score.asked === 0 ? null : html`<b data-score>${said.score(score.right, score.asked)}</b>`}
      </p>
      ${this.options()}`;
  }

  private choose(): TemplateResult {
    const { said, task } = this;
    const { choose } = task;
    if (choose === null) return html``;
    const { length } = this.view.units;
    const size = [choose.block.width, choose.block.length, choose.block.thickness].map((side) =>
      millimetreWords(side, length, this.language),
    );
    return html`<p class="say">
        <b>${said.chooseAbout(this.in(choose.kindName), choose.size ?? '')}</b> ·
        ${said.foldedTo(`${size.join(' × ')} ${length}`)} · ${said.weighs(this.mass(massFromGrams(choose.grams)))}
        ${this.score()}
      </p>
      ${this.options()}`;
  }

  private score(): TemplateResult | null {
    const { asked, right } = this.task.score;
    return asked === 0 ? null : html`<span class="secondary" data-score>· ${this.said.score(right, asked)}</span>`;
  }

  private spot(): TemplateResult {
    const { said, task } = this;
    const { scene, answer } = task;
    if (scene === null) return html``;
    const { scale, label, order, inHand, pocket } = scene;
    const facts: readonly (readonly [keyof typeof said.scene, string, readonly string[]])[] = [
      ['order', order.id, [order.pieces.map((piece) => this.in(piece.name)).join(', '), said.goesTo(order.postcode)]],
      ['inHand', this.in(inHand.name), [inHand.sku]],
      ['pocket', said.pockets[pocket], []],
      ['label', said.labelSays(label.postcode), []],
      [
        'scale',
        said.parcelOnIt(this.mass(scale.reading)),
        [
          said.emptyPan(this.mass(scale.emptyPan)),
          `${said.ceiling(this.plainMass(scale.ceiling))}, ${said.margin(this.fineMass(scale.verdict.uncertainty))}`,
        ],
      ],
    ];
    return html`<dl class="scene">
        ${facts.map(
          ([id, main, more]) =>
            html`<div data-scene=${id}>
              <dt>${said.scene[id]}</dt>
              <dd><b>${main}</b>${more.map((each) => html`<span class="note">${each}</span>`)}</dd>
            </div>`,
        )}
      </dl>
      ${
        answer === null
          ? null
          : html`<p class="say why" role="status" data-answer=${answer.right ? 'right' : 'wrong'}>
              ${shape(answer.right ? 'well' : 'stop', 40)}
              <span
                ><b>${answer.right ? said.right : said.wrong}.</b> ${said.problemWhy[answer.problem ?? 'nothing-wrong']}
                ${this.score()}</span
              >
            </p>`
      }
      ${this.options()}`;
  }

  private progress(): TemplateResult {
    const { progress } = this.task;
    // Read when somebody looks at it: a bench that only packs needs no charts.
    void import('../../components/progress.ts');
    if (progress === null) return html``;
    return html`<div class="fill scrolls">
      <bf-progress bench .progress=${progress} .language=${this.language}></bf-progress>
    </div>`;
  }

  static override styles = [...TaskElement.styles, practiceStyles];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-task-practice': TaskPractice;
  }
}
