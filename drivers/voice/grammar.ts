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
  return grammar(name, states, arcs);
}

/**
 * How much dearer each way to be nearly a phrase is than the phrase itself; tuned with synthetic voices so that what was
 * said exactly is seldom lost. The more often a way is taken for the phrase, the cheaper it is.
 */
const NEARLY = { before: 0.015, behind: 0.0002, first: 0.0002, last: 0.0002 } as const;

/** A decoy that sounds like a phrase's first or last word would be taken for it half of the time. */
const SAME_SOUND: Readonly<Record<string, string>> = { weigh: 'way', piece: 'peace' };

/** What the hiss of a tape gun is heard as, before or behind a phrase that was said: not set against it there. */
const LIKE_HISS: ReadonlySet<string> = new Set(
  'if off of for from phone four five few half often found food who other them'.split(' '),
);

/**
 * The search of the second look: a phrase against all that is nearly that phrase, with one more word before or behind it
 * or another word in the place of its first or last one. From state 0 to the final state 1; the shares sum to no one,
 * because all that counts is which path is the best.
 */
export function nearText(name: string, phrase: string, decoys: readonly string[] = DECOYS): string {
  const words = phrase.split(' ');
  const first = words[0] ?? '';
  const last = words.at(-1) ?? '';
  const arcs: string[] = [];
  let states = 2;
  const path = (from: number, to: number, along: readonly string[]): void => {
    let at = from;
    along.forEach((word, index) => {
      const next = index === along.length - 1 ? to : states++;
      arcs.push(arc(at, next, 1, word));
      at = next;
    });
  };
  const any = (from: number, to: number, share: number, but: (word: string) => boolean): void => {
    for (const word of decoys) if (!but(word)) arcs.push(arc(from, to, share, word));
  };
  const hiss = (word: string) => LIKE_HISS.has(word);
  const alike = (to: string) => (word: string) => word === to || word === SAME_SOUND[to];
  path(0, 1, words);
  const behindOne = states++;
  any(0, behindOne, NEARLY.before, hiss);
  path(behindOne, 1, words);
  const beforeOne = states++;
  path(0, beforeOne, words);
  any(beforeOne, 1, NEARLY.behind, hiss);
  if (words.length > 1) {
    const afterFirst = states++;
    any(0, afterFirst, NEARLY.first, alike(first));
    path(afterFirst, 1, words.slice(1));
    const beforeLast = states++;
    path(0, beforeLast, words.slice(0, -1));
    any(beforeLast, 1, NEARLY.last, alike(last));
  }
  return grammar(name, states, arcs);
}

function grammar(name: string, states: number, arcs: readonly string[]): string {
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

/** How likely it is that a row of words ends after each. */
const LOOP_ENDS = 0.1;

/** The search for one or more of these words in any order: digits, where a number is said. */
export function loopGrammarText(name: string, words: readonly string[]): string {
  return [
    `FSG_BEGIN ${name}`,
    'NUM_STATES 3',
    'START_STATE 0',
    'FINAL_STATE 1',
    ...words.flatMap((word) => [arc(0, 2, 1 / words.length, word), arc(2, 2, (1 - LOOP_ENDS) / words.length, word)]),
    `TRANSITION 2 1 ${probability(LOOP_ENDS)}`,
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
