import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { formTrial } from '#server/office/devices/form-trial.ts';
import { loadHidLibrary } from '#drivers/transport/hid-library.ts';
import { usbScales } from '#server/office/devices/usb-scales.ts';
import { ScaleFinder } from '#server/office/devices/scale-finder.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import type { FormToTry } from '#shared/wire/devices.ts';

const words = z.array(z.string().min(1)).exactOptional();
export const formBody: z.ZodType<FormToTry> = z.strictObject({
  form: z.strictObject({
    kind: z.literal('own'),
    pattern: z.string().min(1).max(400),
    words: z
      .strictObject({ still: words, moving: words, over: words, under: words, fault: words, net: words })
      .exactOptional(),
    unit: z.enum(MASS_UNITS).exactOptional(),
    ask: z.string().min(1).exactOptional(),
    zero: z.string().min(1).exactOptional(),
  }),
  sample: z.string().max(10_000),
});

export const portBody = z.strictObject({ port: z.string().startsWith('/').max(200) });

/** Finding out how a scale is set: listening to a port, and trying a described form on a pasted sample. */
export function scaleSettingRoutes({ shops }: AppParts): Router {
  const finder = new ScaleFinder(() => shops.current);
  const routes = Router();
  routes.get('/ports', async (_request, response) => {
    response.json(await finder.ports());
  });
  routes.get('/usb-scales', async (_request, response) => {
    response.json(await usbScales(loadHidLibrary));
  });
  routes.get('/scale-finding', (_request, response) => {
    response.json(finder.state());
  });
  routes.post('/scale-finding', express.json(), (request, response) => {
    const { port } = checkBody(portBody, request.body);
    if (!finder.start(port)) {
      throw new HttpError(409, 'port-in-use', 'This port is in use by a bench, or another search is running.');
    }
    response.json(finder.state());
  });
  routes.post('/form-trial', express.json(), (request, response) => {
    const body = checkBody(formBody, request.body);
    try {
      response.json(formTrial(body));
    } catch (error) {
      if (error instanceof Error && error.name === 'DriverError')
        throw new HttpError(422, 'bad-pattern', error.message);
      throw error;
    }
  });
  return routes;
}
