import type { Operation } from '../operation.ts';
import { speechQuery } from '#server/http/speech-routes.ts';
import { takeQuery, whoBody } from '#server/http/voice-routes.ts';

const NOBODY = { 404: 'there is no such person or bench' } as const;

export const voiceOperations: readonly Operation[] = [
  {
    group: 'voice',
    method: 'get',
    path: '/api/speech',
    id: 'speak',
    about: 'A sentence as sound',
    query: speechQuery,
    answer: { media: 'audio/wav', about: 'WAVE, 16 bit' },
    refusals: { 503: 'the synthesiser is not there, or busy' },
  },
  {
    group: 'voice',
    method: 'get',
    path: '/api/speech/state',
    id: 'showSpeech',
    about: 'Whether the station can speak',
    answer: 'SpeechState',
  },
  {
    group: 'voice',
    method: 'get',
    path: '/api/voices',
    id: 'listVoices',
    about: 'Phrases of the commands, and whose voices were tried where',
    answer: 'VoicesView',
  },
  {
    group: 'voice',
    method: 'get',
    path: '/api/voices/recogniser',
    id: 'showRecogniser',
    about: 'Whether the station can understand commands',
    answer: 'RecogniserView',
  },
  {
    group: 'voice',
    method: 'post',
    path: '/api/voices/takes',
    id: 'recordTake',
    about: 'One phrase as somebody said it; answers what was understood',
    query: takeQuery,
    body: {
      media: 'application/octet-stream',
      about: '16,000 samples a second, signed 16 bit little endian, one channel',
    },
    answer: 'TakeAnswer',
    refusals: { ...NOBODY, 503: 'nothing can be understood on this computer' },
  },
  {
    group: 'voice',
    method: 'get',
    path: '/api/voices/recordings',
    id: 'listRecordings',
    about: 'What was recorded',
    answer: 'RecordedTakes',
  },
  {
    group: 'voice',
    method: 'get',
    path: '/api/voices/recordings/:file',
    id: 'showRecording',
    about: 'One recording',
    answer: { media: 'audio/wav', about: 'WAVE, 16 bit' },
    refusals: { 404: 'there is no such recording' },
  },
  {
    group: 'voice',
    method: 'get',
    path: '/api/voices/recordings.zip',
    id: 'exportRecordings',
    about: 'All recordings with their list',
    answer: { media: 'application/zip', about: 'labels.csv and a WAVE file for each take' },
  },
  {
    group: 'voice',
    method: 'post',
    path: '/api/voices/enrolments',
    id: 'keepVoice',
    about: 'A person’s takes at a bench are used there from now on',
    body: whoBody,
    answer: 'EnrolledView',
    refusals: { ...NOBODY, 409: 'nothing was recorded' },
  },
  {
    group: 'voice',
    method: 'delete',
    path: '/api/voices/enrolments/:staff/:bench',
    id: 'forgetVoice',
    about: 'They are not used any more',
    answer: 'Done',
  },
];
