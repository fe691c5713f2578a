import { atMost, type Figure } from './figure.ts';
import { readShop, textsOf, type ChangedFiles } from '#config/load.ts';
import { CONFIG } from '#tests/support/config-folder.ts';

const TIMES = 21;

/** Reading a shop's files while a form changes one of them, against reading them all: the loop that serves benches waits meanwhile. */
export function settings(): readonly Figure[] {
  const texts = textsOf(CONFIG);
  let asked = 0;
  // Texts that nobody has read before.
  const changed = (names: Iterable<string>): ChangedFiles => {
    asked += 1;
    return new Map([
      ...texts,
      ...[...names].map((name) => [name, `${texts.get(name) ?? ''}# ${String(asked)}\n`] as const),
    ]);
  };
  const one = median(() => changed(['containers.yaml']));
  const all = median(() => changed(texts.keys()));
  return [
    atMost({
      bench: 'office',
      name: 'the shop’s files read when one of them changed, median',
      value: one,
      unit: 'ms',
      goal: 50,
      against: `all of them read: ${all.toFixed(0)} ms`,
    }),
  ];
}

function median(filesOf: () => ChangedFiles): number {
  const times = Array.from({ length: TIMES }, () => {
    const files = filesOf();
    const start = performance.now();
    const { problems } = readShop(CONFIG, files);
    if (problems.length > 0) throw new Error(`the demo's files do not hold: ${JSON.stringify(problems[0])}`);
    return performance.now() - start;
  });
  return times.sort((one, other) => one - other)[Math.floor(TIMES / 2)] ?? 0;
}
