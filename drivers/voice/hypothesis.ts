import type { Hypothesis } from './pocketsphinx.ts';

/** The best path's score for each frame of speech: silence scores well and would hide a bad word. */
export function scoreAFrame({ score, words }: Hypothesis): number {
  const frames = words.reduce((sum, each) => (/^[<(]/.test(each.word) ? sum : sum + each.to - each.from + 1), 0);
  return score / Math.max(1, frames);
}
