import { csv, type Operation } from '../operation.ts';
import { mappingBody } from '#server/http/import-source-routes.ts';

export const importSourceOperations: readonly Operation[] = [
  {
    group: 'incoming',
    method: 'get',
    path: '/api/incoming',
    id: 'showIncoming',
    about: 'The watched folder: what waits in it, and what was taken or refused',
    answer: 'IncomingView',
  },
  {
    group: 'incoming',
    method: 'post',
    path: '/api/imports/look',
    id: 'lookAtFile',
    about: 'What the beginning of a file shows: its columns, their first values, and how they would be read',
    body: csv('the first 256 KiB of the file'),
    answer: 'ImportLook',
    refusals: { 413: 'too large', 422: 'no table' },
  },
  {
    group: 'incoming',
    method: 'get',
    path: '/api/import-sources',
    id: 'listSources',
    about: 'Sources whose files are known by their header row, and how each is read',
    answer: 'ImportSources',
  },
  {
    group: 'incoming',
    method: 'post',
    path: '/api/import-sources',
    id: 'keepSource',
    about: 'How the files of a source are read from now on; one with the same header and subject is replaced',
    body: mappingBody,
    answer: 'ImportSources',
    refusals: { 422: 'fields or columns that there are not, or a needed field that nothing fills' },
  },
  {
    group: 'incoming',
    method: 'post',
    path: '/api/import-sources/:id/remove',
    id: 'forgetSource',
    about: 'Files of a source are read by the names of their columns again',
    answer: 'ImportSources',
    refusals: { 404: 'there is no such source' },
  },
];
