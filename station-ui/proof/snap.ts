import { PHOTO_SENT_BYTES } from '#shared/proof/types.ts';
import type { PhotoTrouble } from '#shared/proof/types.ts';

/** Long enough to read a label on it. */
const LONGEST_SIDE = 1280;
/** Tried one after the other until the picture is small enough; then it is made smaller too. */
const QUALITIES = [0.82, 0.7, 0.55, 0.4];
const SHRINK = 0.7;
/** Of 255: a lens that is covered gives less. */
const DARK_BELOW = 6;

/** The picture of a video at this moment as a JPEG that is small enough to send, or why there is none. */
export async function snap(video: HTMLVideoElement): Promise<Uint8Array | PhotoTrouble> {
  const { videoWidth, videoHeight } = video;
  if (videoWidth === 0 || videoHeight === 0 || video.readyState < HTMLMediaElement.HAVE_CURRENT_DATA)
    return 'no-picture';
  const canvas = document.createElement('canvas');
  for (let side = LONGEST_SIDE; side >= LONGEST_SIDE / 4; side *= SHRINK) {
    const scale = Math.min(1, side / Math.max(videoWidth, videoHeight));
    canvas.width = Math.round(videoWidth * scale);
    canvas.height = Math.round(videoHeight * scale);
    const context = canvas.getContext('2d');
    if (context === null) return 'not-encoded';
    context.drawImage(video, 0, 0, canvas.width, canvas.height);
    if (isDark(context, canvas)) return 'no-picture';
    for (const quality of QUALITIES) {
      const bytes = await encoded(canvas, quality);
      if (bytes !== null && bytes.length <= PHOTO_SENT_BYTES) return bytes;
    }
  }
  return 'not-encoded';
}

function isDark(context: CanvasRenderingContext2D, { width, height }: HTMLCanvasElement): boolean {
  const { data } = context.getImageData(0, 0, width, height);
  // Every 97th point, red and green: a prime, so that no pattern of a picture is met by chance.
  for (let at = 0; at < data.length; at += 4 * 97) {
    if (Math.max(data[at] ?? 0, data[at + 1] ?? 0) >= DARK_BELOW) return false;
  }
  return true;
}

async function encoded(canvas: HTMLCanvasElement, quality: number): Promise<Uint8Array | null> {
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
  if (blob?.type !== 'image/jpeg') return null;
  return new Uint8Array(await blob.arrayBuffer());
}
