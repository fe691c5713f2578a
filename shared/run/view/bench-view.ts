import { photoDue } from '#shared/proof/photo-due.ts';
import { seamOf } from './stitches.ts';
import { containerTagOf, orderTagOf } from './tags.ts';
import { taskOf } from './task.ts';
import { weighScaleOf } from './weigh-scale.ts';
import { levelHere } from '#shared/run/guide.ts';
import { commandsFor } from '#shared/run/commands-for.ts';
import type { RunFacts, RunState } from '#shared/run/types.ts';
import type { BenchConfig, Shop } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';
import type { BenchView } from '#shared/wire/views.ts';

/** What a view shows beside the run itself. */
export interface ViewContext {
  readonly shop: Shop;
  readonly bench: BenchConfig;
  readonly seq: number;
  readonly facts: RunFacts;
  readonly day: BenchView['day'];
  readonly simulated: boolean;
  readonly speech: BenchView['speech'];
}

/** Everything that a bench screen shows, from the run and the shop. */
export function benchView(state: RunState, context: ViewContext): BenchView {
  const { shop, bench, facts } = context;
  const packer = shop.staff.find((each) => each.id === state.packer);
  const { confirming } = state;
  const photo = photoDue(state, shop.proof);
  return {
    bench: { id: bench.id, name: bench.name },
    packer: packer === undefined ? null : { name: packer.name, language: packer.language },
    language: languageOf(state, shop),
    units: shop.units,
    timeZone: shop.timeZone,
    seq: context.seq,
    task: taskOf(state, facts, shop),
    commands: commandsFor(state),
    confirming:
      confirming === null
        ? null
        : {
            command: confirming.command,
            ...(confirming.reason === undefined ? {} : { reason: confirming.reason }),
          },
    seam: seamOf(state),
    order: orderTagOf(state),
    container: containerTagOf(state, shop),
    notice: state.notice,
    lastScan: state.lastScan,
    weigh: weighScaleOf(state, facts),
    slip: state.slip,
    repeats: state.repeats,
    footSwitchKeys: bench.footSwitchKeys.main,
    pedals: bench.footSwitchKeys.commands,
    guidance: levelHere(state),
    day: context.day,
    queue: [],
    practice: null,
    simulated: context.simulated,
    speech: context.speech,
    ...(bench.scale.transport.kind === 'hid-on-screen' ? { scaleOnScreen: true } : {}),
    ...(photo === null ? {} : { photo }),
    ...(shop.keepScreenAwake === false ? {} : { keepAwake: true }),
  };
}

/** Chosen on the screen, else the packer's own, else the shop's. */
export function languageOf(state: RunState, shop: Shop): Language {
  return state.language ?? shop.staff.find((each) => each.id === state.packer)?.language ?? shop.language;
}
