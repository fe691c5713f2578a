/** No row has this id. */
const NONE = 0;

/** A row's id as it stands in a path; one that nothing has where it is none, since a database refuses to look for "NaN". */
export const idOf = (text: string): number => (/^\d{1,15}$/.test(text) ? Number(text) : NONE);
