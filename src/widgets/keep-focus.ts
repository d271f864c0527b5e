import { onCleanup } from 'solid-js';

/**
 * The focus of a page whose parts come and go: where the focused element is taken away, hidden or takes no press any more, a
 * keyboard and a screen reader go on from what stands there now, not from the top of the page.
 */

export interface FocusHomes {
  /** A part that lies over others for a while. */
  readonly drawer: () => HTMLElement | null;
  /** What is there in every state. */
  readonly home: () => HTMLElement | null;
}

const isThere = (element: HTMLElement | null): boolean =>
  element !== null && element.isConnected && element.closest('[hidden], :disabled') === null;

/** Watches the elements under `root` until the owner is disposed of. */
export function keepFocusIn(root: HTMLElement, { drawer, home }: FocusHomes): void {
  let last: HTMLElement | null = null;
  let inDrawer = false;
  /** From where the drawer was entered: there one goes back to. */
  let opener: HTMLElement | null = null;

  const onIn = ({ target, relatedTarget }: FocusEvent) => {
    if (!(target instanceof HTMLElement)) return;
    const isInside = drawer()?.contains(target) === true;
    if (isInside && !inDrawer) opener = relatedTarget instanceof HTMLElement ? relatedTarget : last;
    inDrawer = isInside;
    last = target;
  };
  // Somebody who goes elsewhere is not called back.
  const onOut = ({ target, relatedTarget }: FocusEvent) => {
    if (relatedTarget instanceof Node && root.contains(relatedTarget)) return;
    queueMicrotask(() => {
      if (isThere(target as HTMLElement) && target === last) last = null;
    });
  };
  const onChange = () => {
    if (last === null || isThere(last)) return;
    const at = document.activeElement;
    const isLost = at === null || at === document.body || at === last;
    last = null;
    if (!isLost) return;
    const backTo = [drawer(), opener].find(isThere) ?? null;
    const next = inDrawer && backTo !== null ? backTo : home();
    next?.focus({ preventScroll: true });
  };

  root.addEventListener('focusin', onIn);
  root.addEventListener('focusout', onOut);
  const observer = new MutationObserver(onChange);
  observer.observe(root, {
    subtree: true,
    childList: true,
    attributes: true,
    attributeFilter: ['hidden', 'disabled'],
  });
  onCleanup(() => {
    observer.disconnect();
    root.removeEventListener('focusin', onIn);
    root.removeEventListener('focusout', onOut);
  });
}
