import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { loudness } from '#drivers/voice/sound.ts';
import { zipOf } from '#server/voice/recordings-zip.ts';
import { VoiceError } from '#drivers/voice/voice-error.ts';
import { COMMANDS } from '#shared/run/commands.ts';
import { enrolmentOf } from '#shared/voice/enrolment.ts';
import { ALTERNATIVES, PHRASES } from '#shared/voice/phrases.ts';
import type { RecogniserView, TakeAnswer, VoicesView } from '#shared/wire/voice-takes.ts';

/** Eight seconds of sound. */
const LONGEST_BYTES = 256_000;
/** A fifth of a second is no word. */
const SHORTEST_BYTES = 6400;
const RECORDING = /^[\w-]+\.(wav|csv)$/;
const ALL = COMMANDS.flatMap((command) => [PHRASES.en[command], ALTERNATIVES[command]]);

export const whoBody = z.strictObject({ staff: z.string().min(1).max(100), bench: z.string().min(1).max(100) });
export const takeQuery = whoBody.extend({ phrase: z.enum(['', ...ALL]) });

/** Recording a shop's own voices, and how each person is understood. */
export function voiceRoutes({ shops, listener, recorded, enrolments, clock }: AppParts): Router {
  const routes = Router();
  const known = ({ staff, bench }: z.output<typeof whoBody>): void => {
    const { staff: people, benches } = shops.current;
    if (!people.some((each) => each.id === staff)) throw new HttpError(404, 'unknown-staff', `There is no "${staff}".`);
    if (!benches.some((each) => each.id === bench))
      throw new HttpError(404, 'unknown-bench', `There is no "${bench}".`);
  };
  routes.get('/voices', (_request, response) => {
    const { staff, benches } = shops.current;
    const view: VoicesView = {
      staff: staff.map(({ id, name }) => ({ id, name })),
      benches: benches.map(({ id, name }) => ({ id, name })),
      phrases: COMMANDS.map((command) => ({ command, first: PHRASES.en[command], second: ALTERNATIVES[command] })),
      enrolled: enrolments.all(),
      takes: recorded.all().length,
      folder: recorded.folder,
    };
    response.json(view);
  });
  routes.get('/voices/recogniser', async (_request, response) => {
    const state: RecogniserView = { recogniser: await listener.probe() };
    response.json(state);
  });
  routes.post(
    '/voices/takes',
    express.raw({ type: 'application/octet-stream', limit: LONGEST_BYTES }),
    async (request, response) => {
      const query = checkBody(takeQuery, request.query);
      known(query);
      const body: unknown = request.body;
      if (!Buffer.isBuffer(body) || body.length < SHORTEST_BYTES || body.length % 2 !== 0) {
        throw new HttpError(400, 'no-sound', 'Expected sound of a fifth of a second to eight seconds, 16 kHz, 16 bit.');
      }
      const pcm = new Int16Array(new Uint8Array(body).buffer);
      const tried = await listener.tryOut(ALL, pcm).catch((error: unknown) => {
        const code = error instanceof VoiceError ? error.code : 'cannot-start';
        throw new HttpError(503, code, error instanceof Error ? error.message : String(error));
      });
      const heard = tried?.type === 'phrase' ? tried.phrase : null;
      const take = { ...query, heard, ...loudness(pcm) };
      const file = recorded.add(take, pcm, clock.now());
      const why = tried === null ? 'nothing' : tried.type === 'rejected' ? tried.why : null;
      const answer: TakeAnswer = {
        file,
        phrase: query.phrase,
        heard,
        why,
        voiceDb: take.voiceDb,
        floorDb: take.floorDb,
      };
      response.json(answer);
    },
  );
  routes.get('/voices/recordings.zip', async (_request, response) => {
    const files = ['labels.csv', ...recorded.all().map(({ file }) => file)].filter((file) => RECORDING.test(file));
    response.attachment('recordings.zip');
    await pipeline(Readable.from(zipOf(recorded.folder, files)), response);
  });
  routes.get('/voices/recordings/:file', (request, response) => {
    const { file } = request.params;
    const path = join(recorded.folder, file);
    if (!RECORDING.test(file) || !existsSync(path)) {
      throw new HttpError(404, 'not-found', 'There is no such recording.');
    }
    response.download(path, file, { dotfiles: 'allow' });
  });
  routes.get('/voices/recordings', (_request, response) => {
    response.json(recorded.all());
  });
  routes.post('/voices/enrolments', express.json(), async (request, response) => {
    const body = checkBody(whoBody, request.body);
    known(body);
    const takes = recorded
      .all()
      .filter((take) => take.staff === body.staff && take.bench === body.bench && take.phrase);
    if (takes.length === 0) throw new HttpError(409, 'no-takes', 'Nothing was recorded of this person at this bench.');
    const kept = { ...body, at: clock.now(), enrolment: enrolmentOf(takes) };
    await enrolments.keep(kept);
    response.json(kept);
  });
  routes.delete('/voices/enrolments/:staff/:bench', async (request, response) => {
    await enrolments.forget(request.params.staff, request.params.bench);
    response.json({ ok: true });
  });
  return routes;
}
