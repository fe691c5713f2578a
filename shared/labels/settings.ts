/** Where labels are asked for, and how patiently. */
export interface LabelSettings {
  /** `simulated` starts a receiver of our own and speaks to it over a local socket */
  readonly url: string;
  /** where the secret is read; the simulated receiver makes its own */
  readonly secret: SecretPlace | null;
  /** how long one delivery may take, from the connection to the last byte of the answer */
  readonly timeoutSeconds: number;
  /** deliveries before it is given up */
  readonly attempts: number;
  /** the wait after the first one; it doubles with each */
  readonly firstRetrySeconds: number;
  readonly longestRetrySeconds: number;
  /** after this the bench says that there is no answer yet */
  readonly patienceSeconds: number;
}

export type SecretPlace = { readonly variable: string } | { readonly file: string };

export const SIMULATED = 'simulated';

/** What is not said in the shop's files. */
export const LABEL_DEFAULTS = {
  timeoutSeconds: 15,
  attempts: 12,
  firstRetrySeconds: 2,
  longestRetrySeconds: 900,
  patienceSeconds: 20,
} as const;
