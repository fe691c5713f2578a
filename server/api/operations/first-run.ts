import type { Operation } from '../operation.ts';
import { cupboardBody, peopleBody, shopFactsBody, stepBody } from '#server/http/first-run-routes.ts';

const WRONG = { 422: 'the shop’s files would not load; `problems` names each place, and nothing was written' } as const;
const AT = { group: 'shop', answer: 'FirstRunView' } as const;

export const firstRunOperations: readonly Operation[] = [
  {
    ...AT,
    method: 'get',
    path: '/api/first-run',
    id: 'showFirstRun',
    about: 'How far the first hour of the shop is, and what it finds',
  },
  {
    ...AT,
    method: 'post',
    path: '/api/first-run/shop',
    id: 'tellShop',
    about: 'Name, place and measures of the shop; files that nobody has changed go over to the measures',
    body: shopFactsBody,
    refusals: WRONG,
  },
  {
    ...AT,
    method: 'post',
    path: '/api/first-run/containers',
    id: 'fillCupboard',
    about: 'Which containers there are, and new ones',
    body: cupboardBody,
    refusals: WRONG,
  },
  {
    ...AT,
    method: 'post',
    path: '/api/first-run/people',
    id: 'addPeople',
    about: 'Who works here besides',
    body: peopleBody,
    refusals: WRONG,
  },
  {
    ...AT,
    method: 'post',
    path: '/api/first-run/prices/drop-stand-in',
    id: 'dropStandIn',
    about: 'Takes the stand-in prices away',
    refusals: { 409: 'there are no others yet' },
  },
  {
    ...AT,
    method: 'post',
    path: '/api/first-run/steps/:step',
    id: 'markStep',
    about: 'A step was done or skipped, or is open again',
    body: stepBody,
    refusals: { 404: 'there is no such step' },
  },
  {
    ...AT,
    method: 'post',
    path: '/api/first-run/put-away',
    id: 'putGuideAway',
    about: 'The office opens on its orders again',
  },
];
