/** Why something could not be said. `code` is for programs, `message` for people. */
export class SpeechError extends Error {
  override readonly name = 'SpeechError';
  readonly code: 'not-installed' | 'bad-text' | 'timed-out' | 'failed' | 'busy';

  constructor(code: SpeechError['code'], message: string) {
    super(message);
    this.code = code;
  }
}
