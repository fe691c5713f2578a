/** Something on a page that would be lost if the page were left now. */
export interface Unsaved {
  readonly isUnsaved: boolean;
}

const held = new Set<Unsaved>();
let ask: () => Promise<boolean> = () => Promise.resolve(true);

/** Whether anything would be lost. */
export function isUnsaved(): boolean {
  return [...held].some((each) => each.isUnsaved);
}

/** Counts while it is on the page. */
export function holdUnsaved(one: Unsaved): void {
  if (held.size === 0) window.addEventListener('beforeunload', warn);
  held.add(one);
}

export function letGo(one: Unsaved): void {
  held.delete(one);
  if (held.size === 0) window.removeEventListener('beforeunload', warn);
}

/** The browser asks in its own words. */
function warn(event: BeforeUnloadEvent): void {
  if (isUnsaved()) event.preventDefault();
}

/** Who asks whether to leave; one for the whole page. */
export function askBy(question: () => Promise<boolean>): void {
  ask = question;
}

/** True where nothing would be lost, or somebody said that it may be. */
export async function mayLeave(): Promise<boolean> {
  return !isUnsaved() || (await ask());
}
