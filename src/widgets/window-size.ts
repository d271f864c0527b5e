import { type Accessor, createSignal, onCleanup } from 'solid-js';

export interface WindowSize {
  readonly width: number;
  readonly height: number;
}

/**
 * The size that a page has for itself, CSS px. A keyboard on the screen lies over the page and does not count, nor does a
 * magnified part of it: nothing moves while somebody types.
 */
export function createWindowSize(): Accessor<WindowSize> {
  const read = (): WindowSize => ({ width: innerWidth, height: innerHeight });
  const [size, setSize] = createSignal(read(), {
    equals: (a, b) => a.width === b.width && a.height === b.height,
  });
  const onResize = () => setSize(read());
  addEventListener('resize', onResize);
  const observer = typeof ResizeObserver === 'undefined' ? null : new ResizeObserver(onResize);
  observer?.observe(document.documentElement);
  onCleanup(() => {
    removeEventListener('resize', onResize);
    observer?.disconnect();
  });
  return size;
}
