import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseDocument } from 'yaml';

/** What stands in the shop's file of devices for a bench. */
type Bench = Readonly<Record<'scale' | 'printer', object>>;

/** So many benches, `bench-1` and on, in place of those of a config folder, each as its first one or as it is made of that one. */
export function setBenches(
  folder: string,
  count: number,
  made: (like: Bench, index: number) => object = (like) => like,
): void {
  const file = join(folder, 'devices.yaml');
  const devices = parseDocument(readFileSync(file, 'utf8'));
  const like = (devices.toJS() as { benches: Record<string, Bench> }).benches['bench-1'];
  if (like === undefined) throw new Error(`${file} has no bench-1`);
  const benches = Array.from({ length: count }, (_, index) => {
    const number = String(index + 1);
    return [`bench-${number}`, { ...made(like, index), name: `Bench ${number}` }] as const;
  });
  devices.set('benches', Object.fromEntries(benches));
  writeFileSync(file, devices.toString());
}
