import type { ContainerFitView } from '#shared/wire/fits.ts';

export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One container and the stack in it in float millimetres, the container's length running to the right. */
export interface FitPicture {
  readonly above: {
    readonly inside: Rectangle;
    /** what the closing takes at the far end; no width where nothing closes */
    readonly closing: Rectangle;
    /** what is left for the stack once the thickness has drawn the container in */
    readonly room: Rectangle;
    readonly stack: Rectangle;
  };
  readonly side: { readonly room: Rectangle; readonly stack: Rectangle };
  /** the box around everything */
  readonly width: number;
  readonly height: number;
}

/** Between the view from above and the one from the side. */
const GAP = 48;

/** No thinner than can be seen. */
const THINNEST = 3;

/**
 * A container from above and, below, from the side. The stack lies in the middle of the room across and at the closed end;
 * where the room is too small it sticks out by as much as is missing.
 */
export function fitPicture({ inside, closing, stack, fit }: ContainerFitView): FitPicture {
  const { slack } = fit;
  const insideBox = { x: 0, y: 0, width: inside.length, height: inside.width };
  const roomLength = Math.max(stack.along + slack.length, 0);
  const roomWidth = Math.max(stack.across + slack.width, 0);
  const middle = inside.width / 2;
  const box = (length: number, across: number): Rectangle => ({
    x: 0,
    y: middle - across / 2,
    width: length,
    height: across,
  });
  const tall = Math.max(stack.thickness + slack.thickness, THINNEST);
  const thick = Math.max(stack.thickness, THINNEST);
  const overhang = Math.max(0, (stack.across - inside.width) / 2);
  const top = inside.width + overhang + GAP;
  const height = Math.max(tall, thick);
  return {
    above: {
      inside: insideBox,
      closing: { x: inside.length - closing, y: 0, width: closing, height: inside.width },
      room: box(roomLength, roomWidth),
      stack: box(stack.along, stack.across),
    },
    side: {
      room: { x: 0, y: top + height - tall, width: inside.length, height: tall },
      stack: { x: 0, y: top + height - thick, width: stack.along, height: thick },
    },
    width: Math.max(inside.length, stack.along),
    height: top + height,
  };
}
