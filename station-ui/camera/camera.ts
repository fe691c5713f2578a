import { CameraError } from './camera-trouble.ts';
import type { CameraTrouble } from './camera-trouble.ts';

export interface Camera {
  readonly stream: MediaStream;
  /** null where the camera has no light of its own */
  readonly torch: ((on: boolean) => Promise<void>) | null;
  readonly close: () => void;
}

/** The camera on the back, in a size at which the bars of a long label are still two points wide. */
const WANTED: MediaTrackConstraints = {
  facingMode: { ideal: 'environment' },
  width: { ideal: 1280 },
  height: { ideal: 720 },
};

/**
 * Opens this tablet's camera.
 * @param lost the camera was pulled out, or the browser took it away
 * @throws CameraError which says what forbids it
 */
export async function openCamera(lost: () => void): Promise<Camera> {
  if (!isSecureContext) throw new CameraError('page-not-secure');
  if (!('mediaDevices' in navigator) || typeof Worker === 'undefined') throw new CameraError('too-old');
  const stream = await navigator.mediaDevices.getUserMedia({ video: WANTED, audio: false }).catch((error: unknown) => {
    throw new CameraError(troubleOf(error));
  });
  const [track] = stream.getVideoTracks();
  track?.addEventListener('ended', lost);
  return {
    stream,
    torch: track !== undefined && hasTorch(track) ? (on) => light(track, on) : null,
    close: () => {
      for (const each of stream.getTracks()) each.stop();
    },
  };
}

function troubleOf(error: unknown): CameraTrouble {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'forbidden';
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return 'none-found';
  return 'in-use';
}

/** `torch` is a capability of cameras (MediaStream Image Capture) that the browsers' types leave out. */
function hasTorch(track: MediaStreamTrack): boolean {
  // Some browsers have no way to ask.
  const ask = (track as Partial<MediaStreamTrack>).getCapabilities?.bind(track);
  return (ask?.() as { readonly torch?: boolean } | undefined)?.torch === true;
}

async function light(track: MediaStreamTrack, on: boolean): Promise<void> {
  await track.applyConstraints({ advanced: [{ torch: on } as MediaTrackConstraintSet] });
}
