/** A field where a person types. */
export type Field = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** The field that a key goes to; null where it goes to none. */
export function fieldOf(event: KeyboardEvent): Field | null {
  const [target] = event.composedPath();
  const isField =
    target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
  return isField ? target : null;
}

/** Remembers a field as it is now; `restore` makes it so again and tells who listens to it. */
export function fieldBefore(field: Field): { readonly restore: () => void } {
  const { value } = field;
  return {
    restore: () => {
      if (field.value === value) return;
      field.value = value;
      field.dispatchEvent(new InputEvent('input', { bubbles: true, composed: true }));
    },
  };
}
