import { Router } from 'express';
import { z } from 'zod';
import { HttpError } from './http-error.ts';
import { SpeechError } from '#drivers/speech/speech-error.ts';
import { LONGEST_TEXT } from '#drivers/speech/synthesiser.ts';
import type { Speech } from '#server/speech/speech.ts';
import { FASTEST, SLOWEST } from '#shared/wire/speech.ts';
import { LANGUAGES } from '#shared/words/language.ts';

export const speechQuery = z.object({
  text: z.string().min(1).max(LONGEST_TEXT),
  language: z.enum(LANGUAGES),
  rate: z.coerce.number().int().min(SLOWEST).max(FASTEST),
});

const STATUS: Readonly<Record<SpeechError['code'], number>> = {
  'not-installed': 503,
  'bad-text': 400,
  'timed-out': 503,
  failed: 503,
  busy: 503,
};

/** `GET /api/speech?text=…&language=en&rate=170`: the sentence as a WAVE file. Volume is the page's. */
export function speechRoutes({ speech }: { readonly speech: Speech }): Router {
  const router = Router();
  router.get('/speech', async (request, response) => {
    const asked = speechQuery.safeParse(request.query);
    if (!asked.success) throw new HttpError(400, 'bad-request', z.prettifyError(asked.error));
    const { text, language, rate } = asked.data;
    try {
      const sound = await speech.sound({ text, language, wordsPerMinute: rate });
      response
        .status(200)
        .setHeader('Content-Type', 'audio/wav')
        .setHeader('Cache-Control', 'private, max-age=86400')
        .send(sound);
    } catch (error) {
      if (!(error instanceof SpeechError)) throw error;
      throw new HttpError(STATUS[error.code], `speech-${error.code}`, `This cannot be spoken: ${error.message}.`);
    }
  });
  router.get('/speech/state', async (_request, response) => {
    await speech.probe();
    response.json({ engine: speech.state });
  });
  return router;
}
