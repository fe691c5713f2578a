const KEPT_AS = 'benchfold.camera';

/** Whether the camera was left on at this tablet. */
export function cameraWasOn(): boolean {
  try {
    return localStorage.getItem(KEPT_AS) === 'on';
  } catch {
    // No storage: off, until somebody asks for it.
    return false;
  }
}

export function keepCamera(on: boolean): void {
  try {
    localStorage.setItem(KEPT_AS, on ? 'on' : 'off');
  } catch {
    // No storage: the choice lasts as long as the page.
  }
}
