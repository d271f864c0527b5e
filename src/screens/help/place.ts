/** A box in the window, px, and the window itself. */
export type Box = Pick<DOMRect, 'left' | 'top' | 'right' | 'bottom' | 'width' | 'height'>;
export interface WindowSize {
  readonly width: number;
  readonly height: number;
}

/** Its CSS, px; what is not said is left to the sheet's own look. */
export interface HelpPlace {
  readonly left: number;
  readonly width: number;
  readonly maxHeight: number;
  readonly top?: number;
  readonly bottom?: number;
}

const WIDTH = 440;
const EDGE = 8;
/** Narrower or lower windows are held in a hand. */
const HELD = { width: 700, height: 500 } as const;
/** Room that four sentences want under their key. */
const ROOM = 260;

/**
 * Where help lies: over the drawer of the live page and nothing else of it; in the hand a sheet from below; else beside its key, where
 * there is room.
 */
export function helpPlace(key: Box, drawer: Box | null, size: WindowSize): HelpPlace {
  if (drawer !== null)
    return {
      left: drawer.left,
      width: Math.min(drawer.width, 2 * WIDTH),
      bottom: size.height - drawer.bottom,
      maxHeight: drawer.height,
    };
  if (size.width < HELD.width || size.height < HELD.height)
    return { left: 0, width: size.width, bottom: 0, maxHeight: 0.8 * size.height };
  const width = Math.min(WIDTH, size.width - 2 * EDGE);
  const left = Math.min(Math.max(key.right - width, EDGE), size.width - width - EDGE);
  const under = size.height - key.bottom - 2 * EDGE;
  return under >= ROOM || under >= key.top
    ? { left, width, top: key.bottom + EDGE, maxHeight: under }
    : { left, width, bottom: size.height - key.top + EDGE, maxHeight: key.top - 2 * EDGE };
}
