/** The languages that the station speaks and shows. */
export const LANGUAGES = ['en', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/** A text in every language. */
export type Localised = Readonly<Record<Language, string>>;
