import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Clock } from '../clock.ts';
import { hexOf, textOf } from '../trace.ts';
import type { TransportFactory } from '../transport/transport.ts';
import { continuousDecoder } from './continuous.ts';
import type { ScaleDecoder, ScaleFrame } from './frames.ts';
import { SMA_COMMANDS, smaDecoder } from './sma.ts';

/** Speeds in the order in which scales are likely to use them (common practice, no source). */
const SCALE_BAUDS: readonly number[] = [9600, 4800, 2400, 19200, 1200, 38400, 57600, 115200];

const LISTEN_MS = 1200;
/** Two good frames could be luck on a noisy line. */
const ENOUGH_FRAMES = 3;
const GOOD_SHARE = 0.8;
const KEPT_BYTES = 256;

/** A setting that made sense of what a port said, with a sample to look at. */
export interface ScaleProposal {
  readonly baud: number;
  readonly protocol: 'continuous' | 'sma';
  /** the frames name no unit: the config must */
  readonly needsUnit: boolean;
  readonly good: number;
  readonly discarded: number;
  readonly sample: {
    readonly text: string;
    readonly hex: string;
    readonly mass: Mass;
    readonly unit: MassUnit | null;
    readonly places: number;
  };
}

export interface FoundNothing {
  readonly baud: number;
  readonly heard: 'nothing' | 'no-sense' | 'cannot-open';
  readonly text: string;
}

export interface ScaleSearch {
  readonly proposal: ScaleProposal | null;
  /** what each speed that did not do gave, for a person to judge */
  readonly tried: readonly FoundNothing[];
}

/**
 * Listens to a port at one speed after the other, asks where nothing comes by itself, and proposes the first setting
 * under which the bytes make sense. It sends `W` and CR to a silent port: ask the owner first what hangs on it.
 *
 * @param at the port at a speed
 */
export async function findScale(parts: {
  readonly at: (baud: number) => TransportFactory;
  readonly clock: Clock;
  readonly bauds?: readonly number[];
  readonly listenMs?: number;
  readonly onTry?: (baud: number) => void;
}): Promise<ScaleSearch> {
  const tried: FoundNothing[] = [];
  for (const baud of parts.bauds ?? SCALE_BAUDS) {
    parts.onTry?.(baud);
    const result = await listen(parts.at(baud), baud, parts.clock, parts.listenMs ?? LISTEN_MS);
    if ('protocol' in result) return { proposal: result, tried };
    tried.push(result);
  }
  return { proposal: null, tried };
}

interface Hypothesis {
  readonly protocol: 'continuous' | 'sma';
  readonly needsUnit: boolean;
  readonly decoder: ScaleDecoder;
  good: number;
  discarded: number;
  last: Extract<ScaleFrame, { kind: 'weight' }> | null;
}

async function listen(
  transport: TransportFactory,
  baud: number,
  clock: Clock,
  listenMs: number,
): Promise<ScaleProposal | FoundNothing> {
  const guess = (protocol: 'continuous' | 'sma', needsUnit: boolean, decoder: ScaleDecoder): Hypothesis => ({
    protocol,
    needsUnit,
    decoder,
    good: 0,
    discarded: 0,
    last: null,
  });
  // The unit of the last guess is only there to see whether a unit is all that is missing; it is not proposed.
  const guesses = [
    guess('continuous', false, continuousDecoder()),
    guess('sma', false, smaDecoder()),
    guess('continuous', true, continuousDecoder('g')),
  ];
  let heard: number[] = [];
  const link = { opened: false };
  let asking: () => void = () => undefined;
  let cancelEnd: () => void = () => undefined;

  const winner = await new Promise<Hypothesis | null>((resolve) => {
    const connection = transport.connect({
      opened() {
        link.opened = true;
        const ask = (): void => {
          if (guesses.every((each) => each.good === 0 || each.protocol === 'sma')) {
            connection.write(new TextEncoder().encode(SMA_COMMANDS.weigh));
          }
          asking = clock.after(150, ask);
        };
        asking = clock.after(listenMs / 2, ask);
      },
      bytes(chunk) {
        heard = [...heard, ...chunk].slice(-KEPT_BYTES);
        for (const each of guesses) count(each, each.decoder.push(chunk));
        const best = guesses.find(makesSense);
        if (best !== undefined) end(best);
      },
      closed: () => end(null),
    });
    let over = false;
    function end(best: Hypothesis | null): void {
      if (over) return;
      over = true;
      asking();
      cancelEnd();
      void connection.close().then(() => resolve(best));
    }
    cancelEnd = clock.after(listenMs + 1000, () => end(guesses.find(makesSense) ?? null));
  });

  const bytes = Uint8Array.from(heard);
  const last = winner?.last ?? null;
  if (winner === null || last === null) {
    const what = !link.opened ? 'cannot-open' : heard.length === 0 ? 'nothing' : 'no-sense';
    return { baud, heard: what, text: textOf(bytes) };
  }
  const { protocol, needsUnit, good, discarded } = winner;
  const sample = {
    text: textOf(bytes),
    hex: hexOf(bytes),
    mass: last.mass,
    unit: needsUnit ? null : last.unit,
    places: last.places,
  };
  return { baud, protocol, needsUnit, good, discarded, sample };
}

function count(guess: Hypothesis, frames: readonly ScaleFrame[]): void {
  for (const frame of frames) {
    if (frame.kind === 'weight') {
      guess.good += 1;
      guess.last = frame;
    } else if (frame.kind === 'discarded' && frame.why !== 'no-start') {
      guess.discarded += 1;
    }
  }
}

function makesSense(guess: Hypothesis): boolean {
  return guess.good >= ENOUGH_FRAMES && guess.good / (guess.good + guess.discarded) >= GOOD_SHARE;
}
