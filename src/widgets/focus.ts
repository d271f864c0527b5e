/** The engine's answer that takes a pressed button away is there by then, ms. */
export const FOCUS_MS = 150;

/** Where the focused element was taken away the focus goes to `home`; a focus that is somewhere stays there. */
export function keepFocus(home: HTMLElement): void {
  const now = document.activeElement;
  if ((now === null || now === document.body) && home.isConnected) home.focus({ preventScroll: true });
}
