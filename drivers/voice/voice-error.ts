/** Why the station cannot listen or speak. `code` is for programs, `message` for people. */
export class VoiceError extends Error {
  override readonly name = 'VoiceError';
  readonly code: 'not-installed' | 'cannot-start' | 'bad-sound';

  constructor(code: VoiceError['code'], message: string) {
    super(message);
    this.code = code;
  }
}
