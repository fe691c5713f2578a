import { digitWords } from './number-words.ts';
import { massNumber, massWords, moneyWords, sizeWords } from './quantity-words.ts';
import { sentencesEn } from './sentences-en.ts';
import { sentencesEs } from './sentences-es.ts';
import type { Said, Sentences } from './sentences.ts';
import { speakable, spokenCode } from './speakable.ts';
import { lengthFromMillimetres } from '#shared/units/length.ts';
import { formatMassPlain, type Mass } from '#shared/units/mass.ts';
import { subtractMoney } from '#shared/units/money.ts';
import type { BenchView, Task } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';

/** What the station says at a moment. */
export interface Cue extends Said {
  /** the same thing to say has the same key: it is not said again by itself */
  readonly key: string;
  /** urgent: it may cut off what is being said */
  readonly urgency: 'urgent' | 'normal';
}

const SENTENCES: Readonly<Record<Language, Sentences>> = { en: sentencesEn, es: sentencesEs };

export function sentencesOf(language: Language): Sentences {
  return SENTENCES[language];
}

/** What is said about a view: a stop by itself, a question by itself, else what just happened and what is to be done now. */
export function cueOf(view: BenchView): Cue {
  const about = new Speech(view);
  const stop = view.notice?.tone === 'stop';
  const parts = stop
    ? [about.notice()]
    : view.confirming !== null
      ? [about.question()]
      : [about.notice(), ...about.task()];
  return { key: keyOf(view), urgency: stop ? 'urgent' : 'normal', ...joined(parts) };
}

/** Everything of a view that changes what is said. */
function keyOf({ task, notice, confirming, language, repeats, packer, order, batch }: BenchView): string {
  const place = [
    task.at,
    task.at === 'look-over' ? task.index : '',
    task.at === 'fold' ? `${String(task.pieceIndex)}.${String(task.step)}` : '',
    task.at === 'label' ? (task.entering ?? '') : '',
    task.at === 'decide' ? `${task.because} ${String(task.reading.at)}` : '',
    order?.parcel ?? '',
    batch?.index ?? '',
    task.at === 'side' ? task.screen : '',
    order?.pieces.map((line) => line.gathered).join('.') ?? '',
  ];
  return JSON.stringify([language, packer?.name ?? '', repeats, order?.id ?? '', place, notice, confirming]);
}

function joined(parts: readonly (Said | null)[]): Said {
  const all = (form: 'full' | 'short'): string =>
    parts
      .map((part) => part?.[form] ?? '')
      .filter((text) => text !== '')
      .map(capitalised)
      .join(' ');
  return { full: all('full'), short: all('short') };
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

class Speech {
  readonly #view: BenchView;
  readonly #language: Language;
  readonly #say: Sentences;

  constructor(view: BenchView) {
    this.#view = view;
    this.#language = view.language;
    this.#say = SENTENCES[view.language];
  }

  notice(): Said | null {
    const { notice, container, packer } = this.#view;
    if (notice === null) return null;
    const values: Record<string, string> = {};
    for (const [name, value] of Object.entries(notice.values)) values[name] = speakable(value, this.#language);
    for (const name of ['found', 'due', 'number', 'order', 'basket', 'place'] as const) {
      const value = notice.values[name];
      if (value !== undefined) values[name] = spokenCode(value, this.#language);
    }
    if (container !== null) {
      const name = this.#name(container.name[this.#language]);
      if (notice.values['container'] === container.id) values['container'] = name;
      if (notice.values['due'] === container.id) values['due'] = name;
    }
    if (packer !== null) values['packer'] = this.#name(packer.name);
    return this.#say.notices[notice.code](values);
  }

  question(): Said | null {
    const { confirming, task } = this.#view;
    if (confirming === null) return null;
    if (confirming.command === 'next' && task.at === 'label') {
      return this.#say.byEye(spokenCode(task.postcode, this.#language));
    }
    if (confirming.command === 'next' && task.at === 'decide') return this.#say.asItIs;
    if (confirming.command === 'go-without') {
      // While pieces are gathered the first that is not there is the one to be found.
      const named = this.#view.order?.pieces.find(({ mark }) => mark === 'waiting');
      return this.#say.confirm(confirming.command, named === undefined ? null : this.#name(named.title));
    }
    if (confirming.command === 'release' && this.#view.batch !== undefined) return this.#say.endBatch;
    return this.#say.confirm(
      confirming.command,
      confirming.reason === undefined ? null : this.#say.reasons[confirming.reason],
    );
  }

  task(): readonly (Said | null)[] {
    const { task } = this.#view;
    const say = this.#say;
    switch (task.at) {
      // Questions of practice are read, and heard by whoever uses a screen reader.
      case 'practice':
        return [];
      case 'side':
        return [this.#side(task)];
      case 'idle':
        return [this.#idle()];
      case 'gather':
        return [this.#gather(task.missing)];
      case 'look-over':
        return [
          say.lookOver(this.#name(task.piece)),
          task.cautions.some((caution) => caution.startsWith('pockets')) ? say.emptyPockets : null,
        ];
      case 'fold':
        return this.#fold(task);
      case 'fill':
        return [
          ...task.asUsual.map(({ piece, recipe, block }) =>
            say.asUsual(this.#name(piece), this.#name(recipe[this.#language]), this.#size(block)),
          ),
          say.fill(this.#container()),
          task.cautions.some((caution) => caution.startsWith('film')) ? say.filmFromChildren : null,
        ];
      case 'weigh':
        return [say.weigh(this.#expected())];
      case 'decide':
        return this.#decide(task);
      case 'seal':
        return [
          say.seal(task.weighed === null ? null : this.#mass(task.weighed)),
          task.cautions.includes('knife') ? say.cutAway : null,
          task.cautions.includes('lifting') ? say.liftWithTwo : null,
        ];
      case 'label':
        if (task.entering !== undefined) return [this.#entering(task.entering)];
        return [say.label(spokenCode(task.postcode, this.#language))];
      case 'done':
        return [say.done(spokenCode(task.order, this.#language)), this.#noSlip()];
    }
  }

  /** A parcel that leaves without its slip: told once more when it is packed. */
  #noSlip(): Said | null {
    const { slip, notice } = this.#view;
    const code = slip === 'failed' ? 'print-failed' : slip === 'unknown' ? 'print-unknown' : null;
    return code === null || notice?.code === code ? null : this.#say.notices[code]({});
  }

  #side(task: Extract<Task, { at: 'side' }>): Said | null {
    switch (task.screen) {
      case 'fetch': {
        const { title, place } = task.piece;
        return this.#say.nextPiece(this.#name(title), place === null ? null : this.#place(place));
      }
      case 'lay':
        return this.#say.layIn(spokenCode(String(task.piece.basket), this.#language));
      // Lists are read, and heard by whoever uses a screen reader.
      default:
        return null;
    }
  }

  #idle(): Said {
    const { waiting } = this.#view.day;
    if (waiting === 0) return this.#say.noneWaiting;
    return this.#say.idle(capitalised(this.#say.orders(waiting)));
  }

  #gather(missing: number): Said {
    const pieces = this.#view.order?.pieces ?? [];
    const next = pieces.find((line) => line.gathered < line.due);
    if (missing === 0 || next === undefined) return this.#say.allHere;
    // Where they lie together was told at the beginning; their own shelves are empty.
    const place = this.#view.order?.lies === undefined ? next.place : null;
    const told = this.#say.nextPiece(this.#name(next.title), place === null ? null : this.#place(place));
    if (missing === 1 || pieces.some((line) => line.gathered > 0)) return told;
    return this.#say.gather(this.#say.pieces(missing), told);
  }

  #fold(task: Extract<Task, { at: 'fold' }>): readonly (Said | null)[] {
    const language = this.#language;
    // Who is told only the key step is told there which piece it is and what it should come to.
    const keyStepOnly = this.#view.guidance !== null && this.#view.guidance !== 'full';
    const first = keyStepOnly || task.step === 0;
    const last = keyStepOnly || task.step === task.steps - 1;
    const words = speakable(task.words[language], language);
    const spoken = speakable(task.spoken[language], language);
    return [
      first ? this.#say.foldFirst(this.#name(task.piece), speakable(task.recipe[language], language)) : null,
      { full: `${words}.`, short: `${spoken}.` },
      last ? this.#say.foldEnds(this.#size(task.block)) : null,
    ];
  }

  /** What was just given is read back by itself; the whole number when nothing else is told. */
  #entering(digits: string): Said | null {
    if (this.#view.notice?.code === 'number-so-far') return null;
    return this.#say.entering(digits === '' ? null : digitWords(digits, this.#language));
  }

  #decide(task: Extract<Task, { at: 'decide' }>): readonly (Said | null)[] {
    const { verdict, reading, expected, paid, nextPrice } = task;
    const reached = this.#mass(reading.mass);
    if (task.because === 'mismatch') {
      const [low, high] = [this.#number(expected.low), this.#mass(expected.high)];
      return [this.#say.mismatch(reached, low, high)];
    }
    const ceiling = this.#ceiling(verdict.ceiling);
    const told =
      task.because === 'close' ? this.#say.close(reached, ceiling) : this.#say.over(this.#mass(verdict.total), ceiling);
    const dearerBy = nextPrice === null ? null : moneyWords(subtractMoney(nextPrice, paid), this.#language);
    return [told, this.#say.choices(dearerBy)];
  }

  /** "sixteen" beside a mass in the same unit, "twenty pounds" where price lists say pounds. */
  #ceiling(ceiling: Mass): string {
    const { mass } = this.#view.units;
    const text = formatMassPlain(ceiling, mass);
    return text.endsWith(` ${mass}`) ? this.#number(ceiling, 4) : massWords(ceiling, 'lb', 4, this.#language);
  }

  #mass(mass: Mass): string {
    const { units } = this.#view;
    return massWords(mass, units.mass, units.massPlaces, this.#language);
  }

  #number(mass: Mass, places = this.#view.units.massPlaces): string {
    return massNumber(mass, this.#view.units.mass, places, this.#language);
  }

  #expected(): string {
    const { weigh, units } = this.#view;
    return weigh === null
      ? ''
      : massWords(weigh.expected.mean, units.mass, units.mass === 'oz' ? 1 : 0, this.#language);
  }

  #size({ width, length }: { readonly width: number; readonly length: number }): string {
    const { units } = this.#view;
    return sizeWords(lengthFromMillimetres(width), lengthFromMillimetres(length), units.length, this.#language);
  }

  #container(): string {
    return this.#name(this.#view.container?.name[this.#language] ?? '');
  }

  #name(text: string): string {
    return speakable(text, this.#language);
  }

  /** A shelf is mostly a code such as "K4-B"; where it has a name, the name is said. */
  #place(place: string): string {
    return /^[A-Z0-9][A-Z0-9 .-]{0,9}$/.test(place) ? spokenCode(place, this.#language) : this.#name(place);
  }
}
