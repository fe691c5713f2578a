import { randomUUID } from 'node:crypto';
import type { BenchClient } from './bench-client.ts';
import type { Moment } from './bench-on-show.ts';
import type { Command } from '#shared/run/commands.ts';
import { orderCode } from '#shared/codes/our-codes.ts';
import { massDigits, massFromBase, massFromDecimal } from '#shared/units/mass.ts';
import type { BenchView } from '#shared/wire/views.ts';

/** An order of the demo with four pieces and a note of the buyer. */
const ORDER = '4116';

/** Packs and practises at a bench of a running server, and keeps what its screen is sent at every kind of moment. */
export class MomentKeeper {
  readonly moments = new Map<string, Moment>();

  constructor(private readonly hands: BenchClient) {}

  async keepAll(): Promise<void> {
    await this.hands.at('idle');
    this.keep('idle');
    await this.hands.simulate({ do: 'scan', text: 'STAFF-MAREN-01' });
    await this.hands.until(({ view }) => view?.packer?.name === 'Maren', 'the packer');
    const idle = this.keep('idle, signed on');
    this.moments.set('idle, all that can be told', {
      ...idle,
      view: {
        ...idle.view,
        streak: 4,
        pause: { worked: 55, rest: 5 },
        overdue: 2,
        short: [
          { name: { en: 'tissue', es: 'papel de seda' }, state: 'out', left: '0' },
          { name: { en: 'tape', es: 'cinta' }, state: 'low', left: '1' },
        ],
      },
    });
    await this.practice();
    await this.foldAhead();
    await this.order();
    this.lastCeiling();
    await this.aside();
  }

  /**
   * The weigh line at its narrowest: a service without a dearer bracket, and the parcel before this one still on the pan.
   * The side at its fullest: without a note there would be room for what the plan saves, were there not so many pieces.
   */
  private lastCeiling(): void {
    const { view, live, devices } = this.moments.get('fold') ?? this.keep('fold');
    const { weigh } = view;
    const only = weigh?.brackets[weigh.planned];
    if (weigh === null || live?.reading == null || only === undefined) throw new Error('no weigh line while folding');
    const saves = { by: only.price, over: { en: 'Film pouch 14½ x 19', es: 'Sobre plástico 14½ x 19' } };
    const ceiling = massFromDecimal(String(Math.ceil((2 * weigh.expected.high) / massFromDecimal('1', 'lb'))), 'lb');
    this.moments.set('fold, no dearer bracket', {
      view: {
        ...view,
        weigh: { ...weigh, brackets: [{ ...only, ceiling }], planned: 0 },
        order: view.order === null ? null : { ...view.order, note: null },
        container:
          view.container === null ? null : { ...view.container, name: saves.over, fit: 'snug', doubts: [], saves },
      },
      live: { ...live, reading: { ...live.reading, mass: weigh.expected.low }, another: true },
      devices,
    });
  }

  private async practice(): Promise<void> {
    await this.say('practice');
    await this.screen('menu', 'practice');
    await this.choose('skill:packing');
    const skill = await this.screen('skill', 'practice, a skill');
    if (skill.view.task.at === 'practice') {
      const task = { ...skill.view.task, signing: 'Tobias' };
      this.moments.set('practice, signing', {
        ...skill,
        view: { ...skill.view, task, commands: ['confirm', 'cancel'] },
      });
    }
    await this.choose('choose');
    await this.screen('choose', 'practice, which container');
    const { task } = this.view;
    await this.choose(task.at === 'practice' ? (task.options.at(-1)?.id ?? '') : '');
    await this.until(({ task: now }) => now.at === 'practice' && now.answer !== null, 'the answer');
    this.keep('practice, which container, answered');
    await this.say('back');
    await this.screen('skill');
    await this.choose('guided');
    await this.hands.at('gather');
    this.keep('practice, a guided run');
    for (let guard = 0; this.view.task.at !== 'label' && guard < 80; guard++) await this.goOn();
    this.keep('practice, the end of a guided run');
    for (let guard = 0; this.view.task.at !== 'practice' && guard < 5; guard++) await this.goOn();
    await this.screen('skill');
    await this.say('back');
    await this.screen('menu');
    await this.choose('skill:checking');
    await this.screen('skill');
    await this.choose('spot');
    await this.screen('spot', 'practice, what is wrong');
    await this.choose('nothing-wrong');
    await this.until(({ task: now }) => now.at === 'practice' && now.answer !== null, 'the answer');
    this.keep('practice, what is wrong, answered');
    await this.say('back');
    await this.screen('skill');
    await this.say('back');
    await this.screen('menu');
    await this.choose('progress');
    await this.screen('progress', 'practice, progress');
    await this.say('back');
    await this.screen('menu');
    await this.say('back');
    await this.hands.at('idle');
  }

  /** The pieces of several orders for one container; the batch is left before anything lies in a basket. */
  private async foldAhead(): Promise<void> {
    await this.until(({ next }) => (next?.container ?? null) !== null, 'plans made ahead');
    await this.say('fold-ahead');
    // On a busy computer no two orders of one container may be planned yet: the list fills by itself.
    await this.until(() => this.hasContainers(), 'containers to fold for');
    await this.say('next');
    this.keep('fold ahead, which container');
    await this.say('confirm');
    await this.until(({ task }) => task.at === 'side' && task.screen === 'fetch', 'the first piece');
    this.keep('fold ahead, fetch');
    await this.say('back');
    await this.hands.at('idle');
  }

  private hasContainers(): boolean {
    const task = this.hands.view?.task;
    return task?.at === 'side' && task.screen === 'containers' && task.choices.length > 0;
  }

  /** From the end of an order: the next one is set aside, and the shelf is looked at. */
  private async aside(): Promise<void> {
    await this.say('next');
    await this.hands.at('gather');
    await this.say('item-missing');
    await this.agree();
    await this.hands.at('idle');
    await this.say('aside-list');
    await this.until(({ task }) => task.at === 'side' && task.screen === 'aside', 'the set-aside shelf');
    await this.say('next');
    this.keep('set-aside shelf');
  }

  private async order(): Promise<void> {
    await this.scan(orderCode(ORDER));
    await this.hands.at('gather');
    this.keep('gather');
    await this.scan(await this.offer('a piece of another order'));
    this.keep('gather, a wrong piece');
    for (let guard = 0; this.view.task.at !== 'weigh' && guard < 80; guard++) {
      const { task, confirming } = this.view;
      const name = confirming === null ? task.at : `${task.at}, confirming`;
      if (!this.moments.has(name)) {
        this.keep(name);
        if (name === 'fold') await this.guidance();
      }
      await this.goOn();
    }
    const fill = this.moments.get('fill');
    if (fill?.view.task.at === 'fill') {
      const told = { recipe: { en: 'In thirds', es: 'En tercios' }, block: { width: 200, length: 270, thickness: 44 } };
      const asUsual = ['Flannel overshirt', 'Long-sleeve polo'].map((piece) => ({ ...told, piece }));
      this.moments.set('fill, two folded as usual', {
        ...fill,
        view: { ...fill.view, task: { ...fill.view.task, asUsual } },
      });
      const doubled = {
        inner: { en: 'Film pouch 14½ x 19', es: 'Sobre plástico 14½ x 19' },
        outer: { en: 'Film pouch 19 x 24', es: 'Sobre plástico 19 x 24' },
      };
      const container = fill.view.container === null ? null : { ...fill.view.container, doubled };
      const task = { ...fill.view.task, asUsual: [], cautions: ['must-not-press', 'film-bag-children'] };
      this.moments.set('fill, two bags and two cautions', { ...fill, view: { ...fill.view, container, task } });
    }
    this.keep('weigh');
    await this.weigh('1 oz');
    await this.hands.at('decide');
    this.keep('decide, mismatch');
    await this.say('weigh-again');
    await this.hands.at('weigh');
    const { weigh } = this.view;
    const ceiling = weigh?.brackets[weigh.planned]?.ceiling ?? 0;
    await this.weigh(`${massDigits(massFromBase(ceiling - (weigh?.toCome ?? 0)), 'oz', 1)} oz`);
    await this.hands.at('decide');
    if (this.because === 'mismatch') {
      await this.say('next');
      await this.agree();
    }
    await this.until(() => this.because === 'close', 'too close');
    this.keep('decide, close');
    await this.say('pay-next-bracket');
    this.keep('decide, confirming');
    await this.agree();
    await this.hands.at('seal');
    await this.until(({ slip }) => slip !== 'queued', 'the slip');
    this.keep('seal');
    await this.say('next');
    await this.hands.at('label');
    this.keep('label');
    await this.scan(await this.offer('a label for another postcode'));
    this.keep('label, stop');
    await this.say('back');
    await this.say('enter-number');
    this.keep('label, number pad');
    await this.hands.input({ id: randomUUID(), type: 'digits', digits: '9212391234567812345670000000', by: 'touch' });
    await this.until(({ task }) => task.at === 'label' && (task.entering ?? '') !== '', 'the digits');
    this.keep('label, number pad, full');
    await this.say('cancel');
    await this.scan(await this.offer('the label'));
    await this.hands.at('done');
    const done = this.keep('done');
    this.moments.set('done, a pause is due', { ...done, view: { ...done.view, pause: { worked: 55, rest: 5 } } });
  }

  /** The same fold told in full, in brief, and not at all. */
  private async guidance(): Promise<void> {
    await this.say('tell-less');
    this.keep('fold, brief');
    await this.say('tell-less');
    this.keep('fold, quiet');
    await this.say('tell-more');
    await this.say('tell-more');
  }

  private get view(): BenchView {
    const { view } = this.hands;
    if (view === null) throw new Error('the bench never showed anything');
    return view;
  }

  private get because(): string {
    const { task } = this.view;
    return task.at === 'decide' ? task.because : '';
  }

  private until(there: (view: BenchView) => boolean, what: string): Promise<true> {
    return this.hands.until(({ view }) => view !== null && there(view) && true, what);
  }

  private async screen(name: string, keptAs?: string): Promise<Moment> {
    await this.until(({ task }) => task.at === 'practice' && task.screen === name, `the screen ${name}`);
    return this.keep(keptAs ?? `practice, ${name}`, keptAs !== undefined);
  }

  private keep(name: string, really = true): Moment {
    const moment: Moment = { view: this.view, live: this.hands.live, devices: this.hands.devices };
    if (really) this.moments.set(name, moment);
    return moment;
  }

  private offer(which: string): Promise<string> {
    return this.hands.offered(which);
  }

  private async say(command: Command): Promise<void> {
    const ack = await this.hands.command(command, 'touch');
    if (!ack.ok) throw new Error(`${command}: ${ack.message}`);
    await this.until(({ seq }) => seq >= ack.seq, `what follows ${command}`);
  }

  private async choose(option: string): Promise<void> {
    const ack = await this.hands.input({ id: randomUUID(), type: 'choose', option });
    if (!ack.ok) throw new Error(`${option}: ${ack.message}`);
    await this.until(({ seq }) => seq >= ack.seq, `what follows ${option}`);
  }

  private async goOn(): Promise<void> {
    if (this.view.confirming === null) await this.say('next');
    else await this.agree();
  }

  /** A confirm that comes too soon is taken for a slip of the finger. */
  private async agree(): Promise<void> {
    await new Promise((soon) => setTimeout(soon, 600));
    await this.say('confirm');
  }

  private async scan(text: string): Promise<void> {
    const before = this.view;
    await this.hands.simulate({ do: 'scan', text });
    await this.until((view) => view !== before && view.lastScan?.text === text, `the scan of ${text}`);
  }

  private async weigh(mass: string): Promise<void> {
    await this.hands.emptyPan();
    await this.hands.simulate({ do: 'put-mass', mass });
  }
}
