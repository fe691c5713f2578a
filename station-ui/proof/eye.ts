import type { PhotoTrouble } from '#shared/proof/types.ts';
import { openCamera } from '../camera/camera.ts';
import { CameraError } from '../camera/camera-trouble.ts';
import { snap } from './snap.ts';

/** A camera that is looking. */
export interface Eye {
  readonly stream: MediaStream;
  readonly snap: () => Promise<Uint8Array | PhotoTrouble>;
  readonly close: () => void;
}

const FIRST_PICTURE_MS = 5000;

/**
 * Lets this tablet's camera look: the one that reads codes where it is on, for some tablets have only one user of a camera.
 * @param shared what reads codes sees; null while it is off
 * @param lost the camera was pulled out
 */
export async function openEye(shared: MediaStream | null, lost: () => void): Promise<Eye | PhotoTrouble> {
  let own: Awaited<ReturnType<typeof openCamera>> | null = null;
  try {
    own = shared === null ? await openCamera(lost) : null;
  } catch (error) {
    const code = error instanceof CameraError ? error.code : 'in-use';
    return code === 'decoder' ? 'in-use' : code;
  }
  const stream = shared ?? own?.stream;
  if (stream === undefined) return 'none-found';
  const video = document.createElement('video');
  const close = (): void => {
    video.srcObject = null;
    own?.close();
  };
  video.muted = true;
  video.playsInline = true;
  video.srcObject = stream;
  const picture = new Promise<boolean>((resolve) => {
    video.addEventListener('loadeddata', () => resolve(true), { once: true });
    setTimeout(() => resolve(false), FIRST_PICTURE_MS);
  });
  void video.play().catch(() => undefined);
  if (!(await picture)) {
    close();
    return 'no-picture';
  }
  return { stream, snap: () => snap(video), close };
}
