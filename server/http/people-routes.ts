import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { notes } from './noted.ts';
import { HttpError } from './http-error.ts';
import { sendStyled } from '#server/access/own-style.ts';
import { queueBadge } from '#server/people/print-badge.ts';
import { peopleView } from '#server/people/people-view.ts';
import { progressView, skillsView } from '#server/people/progress-view.ts';
import { recordPage } from '#server/people/record-page.ts';
import { queueTrainingRecord } from '#server/people/training-record.ts';
import { withdrawSkill } from '#server/store/practice.ts';
import type { StaffMember } from '#shared/shop/shop.ts';
import { LANGUAGES } from '#shared/words/language.ts';

const language = z.enum(LANGUAGES);
export const recordPrintBody = z.strictObject({ bench: z.string().min(1).max(100), language });

/** The people of the shop: how each gets on, their skills, and the record of them. */
export function peopleRoutes({ store, shops, stations, clock }: AppParts): Router {
  const routes = Router();
  const personOf = (id: string): StaffMember => {
    const person = shops.current.staff.find((each) => each.id === id);
    if (person === undefined) throw new HttpError(404, 'unknown-person', `There is nobody "${id}" in this shop.`);
    return person;
  };
  routes.get('/people', async (_request, response) => {
    response.json(await peopleView(store, shops.current));
  });
  routes.get('/people/:id/progress', async (request, response) => {
    response.json(await progressView(store, shops.current, personOf(request.params.id), clock.now()));
  });
  routes.get('/people/:id/record', async (request, response) => {
    const person = personOf(request.params.id);
    const asked = language.safeParse(request.query['language'] ?? person.language);
    if (!asked.success) throw new HttpError(400, 'bad-request', z.prettifyError(asked.error));
    const skills = await skillsView(store, shops.current, person.id);
    sendStyled(response, recordPage(shops.current, person.name, skills, asked.data, clock.now()));
  });
  const stationOf = (bench: string) => {
    const station = stations.get(bench);
    if (station === undefined) throw new HttpError(404, 'unknown-bench', `There is no bench "${bench}".`);
    return station;
  };
  routes.post('/people/:id/record', express.json(), async (request, response) => {
    const person = personOf(request.params.id);
    const body = checkBody(recordPrintBody, request.body);
    const station = stationOf(body.bench);
    const asked = { person: person.id, language: body.language, now: clock.now() };
    await queueTrainingRecord(store, shops.current, station.bench, asked);
    station.printQueued();
    response.json({ queued: true });
  });
  routes.post('/people/:id/badge', express.json(), async (request, response) => {
    const person = personOf(request.params.id);
    const body = checkBody(recordPrintBody, request.body);
    const station = stationOf(body.bench);
    await queueBadge(store, shops.current, station.bench, { person, language: body.language, now: clock.now() });
    station.printQueued();
    response.json({ queued: true });
  });
  routes.post('/people/:id/skills/:skill/withdraw', async (request, response) => {
    const person = personOf(request.params.id);
    const withdrawn = await withdrawSkill(store, person.id, request.params.skill, clock.now());
    if (withdrawn === 0) {
      throw new HttpError(409, 'not-signed', `${person.name} has no skill "${request.params.skill}" signed off.`);
    }
    await notes({ store, clock })(request, { what: 'skill-withdrawn', about: `${person.id} ${request.params.skill}` });
    response.json(await progressView(store, shops.current, person, clock.now()));
  });
  return routes;
}
