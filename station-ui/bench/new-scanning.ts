import { Scanning } from '../camera/scanning.ts';
import type { ScanningState } from '../camera/scanning.ts';
import { BadgeByCamera } from './badge-by-camera.ts';
import type { CameraLine } from './camera-line.ts';
import type { BenchDoor } from './door.ts';
import type { Station } from './station.ts';

export interface NewScanningParts {
  readonly line: () => CameraLine | null;
  /** null while somebody is signed in */
  readonly door: () => BenchDoor | null;
  readonly station: () => Station | null;
  readonly changed: (state: ScanningState) => void;
}

/** The tablet's camera as a scanner: at a locked bench it reads badges, else what the open work knows. */
export function newScanning({ line, door, station, changed }: NewScanningParts): Scanning {
  const badges = new BadgeByCamera();
  return new Scanning({
    picture: () => line()?.picture() ?? null,
    ask: (text) =>
      door() === null
        ? (station()?.code(text) ?? Promise.resolve(null))
        : Promise.resolve(badges.ask(text, performance.now())),
    take: (text) => {
      const shut = door();
      if (shut === null) station()?.scan(text, 'camera');
      else void shut.badge(text);
    },
    changed,
  });
}
