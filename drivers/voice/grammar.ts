import { DECOYS } from './decoys.ts';

/** What part of what is said is expected to be a command; the rest is shared by the decoys. */
const PHRASES_SHARE = 0.5;
/** How likely it is that a sentence of decoys ends after each word. */
const DECOYS_END = 0.1;

/**
 * The search for one set of phrases as the text of a finite state grammar in the form of the CMU Sphinx tools:
 * from state 0 either one whole phrase to the final state 1, or any number of decoy words by way of state 2.
 *
 * @param name one word
 * @param phrases lower-case words separated by single spaces, every word in the recogniser's dictionary
 */
export function grammarText(name: string, phrases: readonly string[], decoys: readonly string[] = DECOYS): string {
  const arcs: string[] = [];
  let states = 3;
  const each = PHRASES_SHARE / Math.max(1, phrases.length);
  for (const phrase of phrases) {
    const words = phrase.split(' ');
    let from = 0;
    words.forEach((word, index) => {
      const to = index === words.length - 1 ? 1 : states++;
      arcs.push(arc(from, to, index === 0 ? each : 1, word));
      from = to;
    });
  }
  for (const word of decoys) {
    arcs.push(arc(0, 2, (1 - PHRASES_SHARE) / decoys.length, word));
    arcs.push(arc(2, 2, (1 - DECOYS_END) / decoys.length, word));
  }
  if (decoys.length > 0) arcs.push(`TRANSITION 2 1 ${probability(DECOYS_END)}`);
  return [
    `FSG_BEGIN ${name}`,
    `NUM_STATES ${String(states)}`,
    'START_STATE 0',
    'FINAL_STATE 1',
    ...arcs,
    'FSG_END',
    '',
  ].join('\n');
}

function arc(from: number, to: number, share: number, word: string): string {
  return `TRANSITION ${String(from)} ${String(to)} ${probability(share)} ${word}`;
}

/** Plain decimal notation: the reader of these files takes no exponent. */
function probability(value: number): string {
  return value.toFixed(8).replace(/0+$/, '').replace(/\.$/, '.0');
}
