import { pan, type View, zoom } from './trace-view.ts';

/**
 * Wheel, drag and pinch over a plot. Plain wheel zooms, shift or a sideways wheel pans; one finger or the mouse
 * drags, two fingers pinch. Vertical page scrolling with one finger stays with the browser.
 * @returns a function that takes the listeners away
 */
export function attachGestures(
  element: HTMLElement,
  state: () => { readonly view: View; readonly whole: View } | null,
  box: () => { readonly left: number; readonly width: number },
  move: (view: View) => void,
): () => void {
  const fingers = new Map<number, number>();
  const share = (clientX: number) => {
    const b = box();
    const x = clientX - element.getBoundingClientRect().left - b.left;
    return Math.min(1, Math.max(0, x / Math.max(1, b.width)));
  };

  const onWheel = (event: WheelEvent) => {
    const now = state();
    if (now === null) return;
    event.preventDefault();
    const unit = event.deltaMode === 1 ? 16 : event.deltaMode === 2 ? 400 : 1;
    const sideways = event.shiftKey ? event.deltaY || event.deltaX : event.deltaX;
    if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY))
      move(pan(now.view, (sideways * unit) / Math.max(1, box().width), now.whole));
    else move(zoom(now.view, Math.exp(event.deltaY * unit * 0.002), share(event.clientX), now.whole));
  };

  const onDown = (event: PointerEvent) => {
    if (state() === null || event.button !== 0) return;
    fingers.set(event.pointerId, event.clientX);
    element.setPointerCapture(event.pointerId);
  };

  const onMove = (event: PointerEvent) => {
    const before = fingers.get(event.pointerId);
    const now = state();
    if (before === undefined || now === null) return;
    if (fingers.size === 1) {
      fingers.set(event.pointerId, event.clientX);
      move(pan(now.view, (before - event.clientX) / Math.max(1, box().width), now.whole));
      return;
    }
    const other = [...fingers].find(([id]) => id !== event.pointerId);
    if (other === undefined) return;
    const wide = Math.max(8, Math.abs(before - other[1]));
    const wider = Math.max(8, Math.abs(event.clientX - other[1]));
    fingers.set(event.pointerId, event.clientX);
    move(zoom(now.view, wide / wider, share((event.clientX + other[1]) / 2), now.whole));
  };

  const onUp = (event: PointerEvent) => {
    fingers.delete(event.pointerId);
  };

  element.addEventListener('wheel', onWheel, { passive: false });
  element.addEventListener('pointerdown', onDown);
  element.addEventListener('pointermove', onMove);
  element.addEventListener('pointerup', onUp);
  element.addEventListener('pointercancel', onUp);
  return () => {
    element.removeEventListener('wheel', onWheel);
    element.removeEventListener('pointerdown', onDown);
    element.removeEventListener('pointermove', onMove);
    element.removeEventListener('pointerup', onUp);
    element.removeEventListener('pointercancel', onUp);
  };
}
