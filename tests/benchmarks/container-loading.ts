import { pack3D, RotationType, type Item3D } from 'binpackingjs/3d';
import { plain, type Figure } from './figure.ts';
import { loadBoxes, type Alike } from '#shared/fitting/load-boxes.ts';
import type { Sides } from '#shared/fitting/sides.ts';
import { boxesInStyleOf, CONTAINER, KINDS_OF_SET } from '#tests/support/container-loading.ts';
import { seeded } from '#tests/support/seeded.ts';

const SETS_EACH = 10;
const ROOM = volumeOf(CONTAINER);
const AGAINST = 'binpackingjs, the same boxes in the same ways';

function volumeOf([a, b, c]: Sides): number {
  return a * b * c;
}

/** The library's rotations, each with the sides of width x height x depth that come to lie along the container's. */
const ROTATIONS = [
  { rotation: RotationType.WHD, along: [0, 1, 2] },
  { rotation: RotationType.HWD, along: [1, 0, 2] },
  { rotation: RotationType.HDW, along: [1, 2, 0] },
  { rotation: RotationType.DHW, along: [2, 1, 0] },
  { rotation: RotationType.DWH, along: [2, 0, 1] },
  { rotation: RotationType.WDH, along: [0, 2, 1] },
] as const;

function itemsOf(boxes: readonly Alike[]): Item3D[] {
  return boxes.flatMap(({ ways, count }, of) => {
    const [first = CONTAINER] = ways;
    const allowedRotations = ROTATIONS.flatMap(({ rotation, along: [x, y, z] }) =>
      ways.some((way) => way[0] === first[x] && way[1] === first[y] && way[2] === first[z]) ? [rotation] : [],
    );
    const [width, height, depth] = first;
    return Array.from({ length: count }, (_, at): Item3D => {
      return { name: `${String(of)}-${String(at)}`, width, height, depth, weight: 0, allowedRotations };
    });
  });
}

function libraryFill(boxes: readonly Alike[]): number {
  const [width, height, depth] = CONTAINER;
  const bin = { name: 'container', width, height, depth, maxWeight: 1 };
  const [packed] = pack3D({ bins: [bin], items: itemsOf(boxes) }).packedBins;
  return (packed?.items ?? []).reduce((sum, { dimension }) => sum + volumeOf([...dimension]), 0) / ROOM;
}

/**
 * How full a container gets with boxes in the style of the sets BR1 to BR7, ours against a general-purpose library in the
 * same run. Best-known mean fills of the sets themselves, by long searches: 96.1 to 96.7 % (OR-Library).
 */
export function containerLoading(): Figure[] {
  let [sum, librarySum, milliseconds, libraryMilliseconds] = [0, 0, 0, 0];
  const figures = KINDS_OF_SET.map((kinds, index) => {
    const uniform = seeded(9000 + kinds);
    let [ours, theirs] = [0, 0];
    for (let set = 0; set < SETS_EACH; set++) {
      const boxes = boxesInStyleOf(kinds, uniform);
      let start = performance.now();
      ours += loadBoxes(boxes, CONTAINER).volume / ROOM / SETS_EACH;
      milliseconds += performance.now() - start;
      start = performance.now();
      theirs += libraryFill(boxes) / SETS_EACH;
      libraryMilliseconds += performance.now() - start;
    }
    sum += ours;
    librarySum += theirs;
    const name = `container loading in the style of BR${String(index + 1)} (${String(kinds)} kinds), mean fill`;
    return figure(name, ours * 100, '%', `${(theirs * 100).toFixed(1)} % of ${AGAINST}`);
  });
  const all = KINDS_OF_SET.length * SETS_EACH;
  return [
    ...figures,
    figure('container loading, mean fill', sum / librarySum, 'times as much', AGAINST),
    figure('container loading, time', milliseconds / libraryMilliseconds, 'times as long', AGAINST),
    figure('container loading, time of one', milliseconds / all, 'ms', `${String(all)} containers of about 130 boxes`),
  ];
}

function figure(name: string, value: number, unit: string, against: string): Figure {
  return plain({ bench: 'planning', name, value: Number(value.toPrecision(4)), unit, against });
}
