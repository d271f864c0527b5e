import type { JSX } from 'solid-js';
import type { Rect } from './layout.ts';

/** A rectangle as CSS, inside another one that is its containing block. */
export function place(r: Rect, inside: Pick<Rect, 'x' | 'y'> = { x: 0, y: 0 }): JSX.CSSProperties {
  return {
    left: `${r.x - inside.x}px`,
    top: `${r.y - inside.y}px`,
    width: `${r.w}px`,
    height: `${r.h}px`,
  };
}

/** As high as what stands in it, and no higher than the rectangle. */
export function placeAtMost(r: Rect): JSX.CSSProperties {
  return { left: `${r.x}px`, top: `${r.y}px`, width: `${r.w}px`, 'max-height': `${r.h}px` };
}
