import type { SideDesk } from './side-desk.ts';
import { foldTaskOf, lookOverCautions } from '#shared/run/view/task.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { sideCommands } from '#shared/side-work/commands.ts';
import type { Walk } from '#shared/side-work/types.ts';
import type { BatchView } from '#shared/wire/side-work.ts';
import type { BenchView, Task } from '#shared/wire/views.ts';

type SideParts = Pick<
  BenchView,
  'task' | 'commands' | 'confirming' | 'notice' | 'repeats' | 'seam' | 'guidance' | 'queue'
> &
  Partial<Pick<BenchView, 'batch'>>;

/** What a bench shows while something other than packing is done there. */
export async function sideView(desk: SideDesk, shop: Shop): Promise<SideParts> {
  const { state } = desk;
  const { screen, marked, confirming, notice, repeats } = state;
  const parts = {
    commands: sideCommands(state),
    confirming:
      confirming === null
        ? null
        : {
            command: confirming.command,
            ...(confirming.reason === undefined ? {} : { reason: confirming.reason }),
          },
    notice,
    repeats,
    seam: { stitches: [], at: 0 },
    guidance: null,
    queue: [],
  };
  switch (screen.at) {
    case 'off':
      return { ...parts, task: { at: 'idle' } };
    case 'aside':
      return { ...parts, task: { at: 'side', screen: 'aside', choices: screen.choices, marked } };
    case 'containers':
      return { ...parts, task: { at: 'side', screen: 'containers', choices: screen.choices, marked } };
    case 'preparing':
      return { ...parts, task: { at: 'side', screen: 'preparing', name: screen.name } };
    case 'folded':
      return { ...parts, task: { at: 'side', screen: 'folded', name: screen.name, baskets: screen.baskets } };
    case 'walk': {
      const batch = batchOf(screen);
      const stitches = screen.pieces.map(({ title }) => ({ step: 'fold', about: title }) as const);
      return {
        ...parts,
        batch,
        seam: { stitches, at: screen.piece },
        task: await walkTask(desk, screen, batch, shop),
      };
    }
  }
}

function batchOf({ pieces, piece }: Walk): BatchView {
  const { order = '', basket = 0, sku = '', title = '', place = null } = pieces[piece] ?? {};
  return { order, basket, sku, title, place, index: piece, of: pieces.length };
}

async function walkTask(desk: SideDesk, walk: Walk, batch: BatchView, shop: Shop): Promise<Task> {
  const { step } = walk;
  const here = walk.pieces[walk.piece];
  const planned = desk.folds[here?.fold ?? -1];
  switch (step.at) {
    case 'fetch':
    case 'lay':
      return { at: 'side', screen: step.at, piece: batch };
    case 'look-over': {
      const cautions = lookOverCautions(shop, here?.kind);
      return { at: 'look-over', piece: batch.title, index: batch.index, of: batch.of, cautions };
    }
    case 'fold': {
      const guidance = await desk.guidance();
      const place = { pieceIndex: batch.index, pieces: batch.of, step: step.step };
      return foldTaskOf(planned, place, guidance, shop) ?? { at: 'side', screen: 'lay', piece: batch };
    }
  }
}
