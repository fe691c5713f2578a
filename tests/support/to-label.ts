import type { BenchClient } from './bench-client.ts';

/** Packs the next order of a bench up to its label, and answers the postcode that the label must carry. */
export async function toLabel(hands: BenchClient): Promise<string> {
  await hands.command('next');
  await hands.at('gather');
  for (let turn = 0; turn < 60 && hands.view?.task.at !== 'weigh'; turn += 1) await hands.command('next');
  await hands.emptyPan();
  await hands.simulate({ do: 'put-expected' });
  for (let turn = 0; turn < 60 && hands.view?.task.at !== 'seal'; turn += 1) {
    await new Promise((soon) => setTimeout(soon, 100));
    if (hands.view?.confirming !== null) await hands.command('confirm');
    else if (hands.view.task.at === 'decide')
      await hands.command(hands.view.commands.includes('pay-next-bracket') ? 'pay-next-bracket' : 'next');
  }
  await hands.at('seal');
  await hands.command('next');
  const { task } = await hands.at('label');
  if (task.at !== 'label') throw new Error('no label');
  return task.postcode;
}
