import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { BenchView, LiveScale } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import type { Words } from '../../i18n/words.ts';
import './idle.ts';
import './gather.ts';
import './look-over.ts';
import './fold.ts';
import './fill.ts';
import './weigh.ts';
import './decide.ts';
import './seal.ts';
import './label.ts';
import './done.ts';
import './practice.ts';
import { sideHeading } from './side.ts';
import { practiceInWords } from './practice-words.ts';
import { labelStopInWords } from './label-stop.ts';
import { numberInWords } from './number-pad.ts';
import './confirm.ts';
import { piecesDue } from '../pieces-due.ts';
import { question } from '../question.ts';

export interface Shown {
  readonly view: BenchView;
  readonly live: LiveScale | null;
  readonly words: Words;
  readonly language: Language;
}

/** The element of what the view asks for: the question that waits for "confirm" goes before the task. */
export function taskElement({ view, live, words, language }: Shown): TemplateResult {
  const { task } = view;
  if (view.confirming !== null) {
    return html`<bf-confirm .view=${view} .task=${task} .words=${words} .language=${language}></bf-confirm>`;
  }
  switch (task.at) {
    case 'practice':
      return html`<bf-task-practice
        .view=${view}
        .task=${task}
        .words=${words}
        .language=${language}
      ></bf-task-practice>`;
    case 'side':
      return html`<bf-task-side .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-side>`;
    case 'idle':
      return html`<bf-task-idle .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-idle>`;
    case 'gather':
      return html`<bf-task-gather .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-gather>`;
    case 'look-over':
      return html`<bf-task-look-over
        .view=${view}
        .task=${task}
        .words=${words}
        .language=${language}
      ></bf-task-look-over>`;
    case 'fold':
      return html`<bf-task-fold .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-fold>`;
    case 'fill':
      return html`<bf-task-fill .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-fill>`;
    case 'weigh':
      return html`<bf-task-weigh
        .view=${view}
        .task=${task}
        .live=${live}
        .words=${words}
        .language=${language}
      ></bf-task-weigh>`;
    case 'decide':
      return html`<bf-task-decide .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-decide>`;
    case 'seal':
      return html`<bf-task-seal .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-seal>`;
    case 'label':
      if (task.stop !== undefined) {
        return html`<bf-label-stop
          .view=${view}
          .task=${task}
          .stop=${task.stop}
          .words=${words}
          .language=${language}
        ></bf-label-stop>`;
      }
      if (task.entering !== undefined) {
        return html`<bf-number-pad
          .view=${view}
          .digits=${task.entering}
          .words=${words}
          .language=${language}
        ></bf-number-pad>`;
      }
      return html`<bf-task-label .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-label>`;
    case 'done':
      return html`<bf-task-done .view=${view} .task=${task} .words=${words} .language=${language}></bf-task-done>`;
  }
}

/** The task in one line, for screen readers and for the page's title. */
export function taskInWords({ view, words, language }: Omit<Shown, 'live'>): string {
  const { task } = view;
  const { bench } = words;
  if (view.confirming !== null) return question(view, words);
  switch (task.at) {
    case 'practice':
      return practiceInWords(task, language);
    case 'side':
      return sideHeading(task, language);
    case 'idle':
      return view.packer === null ? bench.idleNobody : bench.idle;
    case 'gather':
      return task.missing === 0 ? bench.gatherAll : bench.gather(task.missing, piecesDue(view));
    case 'look-over':
      return `${bench.lookOver}: ${task.piece}`;
    case 'fold':
      return `${task.words[language]}. ${bench.stepOf(task.step + 1, task.steps)}`;
    case 'fill':
      return view.container === null
        ? bench.fill.pouch
        : `${bench.fill[view.container.type]}: ${view.container.name[language]}`;
    case 'weigh':
      return words.scale.putOn;
    case 'decide':
      return words.decide.heading[task.because]('');
    case 'seal':
      return bench.seal;
    case 'label':
      if (task.stop !== undefined) return labelStopInWords(task.stop, task.postcode, words);
      if (task.entering !== undefined) return numberInWords(task.entering, words);
      return `${bench.label}. ${bench.labelPostcode} ${task.postcode}`;
    case 'done':
      return bench.done(task.order);
  }
}
