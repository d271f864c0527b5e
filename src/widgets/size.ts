import { createSignal, onCleanup, onMount } from 'solid-js';

/** The inner size of an element in CSS px, followed while it is mounted. */
export function createSize(): {
  readonly ref: (el: Element) => void;
  readonly width: () => number;
  readonly height: () => number;
} {
  const [width, setWidth] = createSignal(0);
  const [height, setHeight] = createSignal(0);
  let element: Element | undefined;
  onMount(() => {
    if (element === undefined || typeof ResizeObserver === 'undefined') return;
    const read = (box: { width: number; height: number }) => {
      setWidth(Math.floor(box.width));
      setHeight(Math.floor(box.height));
    };
    read(element.getBoundingClientRect());
    const observer = new ResizeObserver((entries) => {
      const last = entries[entries.length - 1];
      if (last !== undefined) read(last.contentRect);
    });
    observer.observe(element);
    onCleanup(() => observer.disconnect());
  });
  return {
    ref: (el) => {
      element = el;
    },
    width,
    height,
  };
}
