/** The part of the picture in which codes are looked for, as shares of its width and height; the preview frames it. */
export const LOOKED_AT = { width: 0.88, height: 0.76 } as const;

/** Takes pictures of what a video shows, of the part that is looked at. */
export class Grabber {
  private readonly canvas = document.createElement('canvas');
  private readonly context = this.canvas.getContext('2d', { willReadFrequently: true });

  /** null while the video has no picture yet */
  grab(video: HTMLVideoElement): ImageData | null {
    const { videoWidth, videoHeight } = video;
    if (this.context === null || videoWidth === 0 || videoHeight === 0 || video.readyState < video.HAVE_CURRENT_DATA) {
      return null;
    }
    const width = Math.round(videoWidth * LOOKED_AT.width);
    const height = Math.round(videoHeight * LOOKED_AT.height);
    if (this.canvas.width !== width || this.canvas.height !== height) Object.assign(this.canvas, { width, height });
    const left = (videoWidth - width) / 2;
    const top = (videoHeight - height) / 2;
    this.context.drawImage(video, left, top, width, height, 0, 0, width, height);
    return this.context.getImageData(0, 0, width, height);
  }
}
