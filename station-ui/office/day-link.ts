import { io } from 'socket.io-client';
import type { Socket } from 'socket.io-client';
import { applyChange } from '#shared/day-board/apply-change.ts';
import type { DayBoard, ServerToOffice } from '#shared/wire/day.ts';

/** Follows the day over its socket until it is closed; the board comes whole and then by what became different. */
export function followDay(show: (board: DayBoard) => void, linked: (up: boolean) => void): () => void {
  const socket: Socket<ServerToOffice> = io('/office', { transports: ['websocket'], reconnectionDelayMax: 1500 });
  let board: DayBoard | null = null;
  socket.on('connect', () => linked(true));
  socket.on('disconnect', () => {
    // What was missed meanwhile is not known: the next board comes whole.
    board = null;
    linked(false);
  });
  socket.on('day', (whole) => {
    board = whole;
    show(whole);
  });
  socket.on('day-change', (change) => {
    if (board === null) return;
    board = applyChange(board, change);
    show(board);
  });
  return () => socket.disconnect();
}
