import { type Measure, type Pen, type Shape, type Texture, TONES, type Tone } from './shape.ts';
import { diagonals, dots, TILES } from './texture.ts';

/** Scenes on a canvas: for what moves. */

/** The theme's colours and face as a canvas needs them. */
export interface Ink {
  readonly colour: Readonly<Record<Tone, string>>;
  readonly family: string;
  /** Width of the pressure line, px. */
  readonly traceWide: number;
}

/** Reads the theme in force where an element stands. */
export function inkOf(element: Element): Ink {
  const style = getComputedStyle(element);
  const of = (name: string) => style.getPropertyValue(name).trim();
  return {
    colour: Object.fromEntries(TONES.map((tone) => [tone, of(`--${tone}`) || '#777'])) as Record<
      Tone,
      string
    >,
    family: of('--font') || style.fontFamily || 'sans-serif',
    traceWide: Number.parseFloat(of('--trace-width')) || 3,
  };
}

const fontOf = (ink: Ink, size: number, bold: boolean): string =>
  `${bold ? 700 : 400} ${size}px ${ink.family}`;

/** Widths as the browser sets them. */
export function measureWith(context: CanvasRenderingContext2D, ink: Ink): Measure {
  const known = new Map<string, number>();
  return (text, size, bold) => {
    // Widths go with the size: measured once, large, so that rounding of small sizes has no say.
    const key = `${bold ? 'b' : ''}${text}`;
    let wide = known.get(key);
    if (wide === undefined) {
      context.font = fontOf(ink, 100, bold);
      wide = context.measureText(text).width / 100;
      known.set(key, wide);
    }
    return wide * size;
  };
}

export interface Painter {
  readonly ink: Ink;
  /** Draws shapes in CSS px; the context's own transform brings them to the canvas. */
  paint(context: CanvasRenderingContext2D, shapes: readonly Shape[]): void;
  /** A pattern for fills, in CSS px. */
  texture(context: CanvasRenderingContext2D, which: Texture): CanvasPattern | string;
}

/** @param ratio of device px to CSS px: patterns are made as fine as the screen */
export function createPainter(ink: Ink, ratio: number): Painter {
  const tiles = new Map<Texture, CanvasPattern>();

  const texture: Painter['texture'] = (context, which) => {
    const made = tiles.get(which);
    if (made !== undefined) return made;
    const { side, ground, tone, alpha, size, kind } = TILES[which];
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(side * ratio));
    canvas.height = canvas.width;
    const c = canvas.getContext('2d');
    if (c === null) return ink.colour[tone];
    c.scale(canvas.width / side, canvas.width / side);
    if (ground !== null) {
      c.fillStyle = ink.colour[ground];
      c.fillRect(0, 0, side, side);
    }
    c.globalAlpha = alpha;
    c.fillStyle = ink.colour[tone];
    c.strokeStyle = ink.colour[tone];
    c.lineWidth = size;
    c.beginPath();
    if (kind === 'diagonal') {
      for (const [x1, y1, x2, y2] of diagonals(side)) {
        c.moveTo(x1, y1);
        c.lineTo(x2, y2);
      }
      c.stroke();
    } else {
      for (const [x, y] of dots(side)) {
        c.moveTo(x + size, y);
        c.arc(x, y, size, 0, 2 * Math.PI);
      }
      c.fill();
    }
    const pattern = context.createPattern(canvas, 'repeat');
    if (pattern === null) return ink.colour[tone];
    pattern.setTransform(new DOMMatrix().scale(side / canvas.width));
    tiles.set(which, pattern);
    return pattern;
  };

  const stroke = (context: CanvasRenderingContext2D, pen: Pen) => {
    context.strokeStyle = ink.colour[pen.tone];
    context.lineWidth = pen.wide;
    context.setLineDash(pen.dash === undefined ? [] : [...pen.dash]);
    context.stroke();
  };

  const put = (context: CanvasRenderingContext2D, shape: Shape) => {
    switch (shape.k) {
      case 'rect':
        context.globalAlpha = shape.alpha ?? 1;
        if (shape.texture !== undefined || shape.fill !== undefined) {
          context.fillStyle =
            shape.texture !== undefined ? texture(context, shape.texture) : ink.colour[shape.fill ?? 'ink'];
          if (shape.round === undefined) context.fillRect(shape.x, shape.y, shape.w, shape.h);
          else {
            context.beginPath();
            context.roundRect(shape.x, shape.y, shape.w, shape.h, shape.round);
            context.fill();
          }
        }
        context.globalAlpha = 1;
        if (shape.pen !== undefined) {
          context.beginPath();
          context.roundRect(shape.x, shape.y, shape.w, shape.h, shape.round ?? 0);
          stroke(context, shape.pen);
        }
        return;
      case 'path':
        context.beginPath();
        for (const [i, [x, y]] of shape.points.entries()) {
          if (i === 0) context.moveTo(x, y);
          else context.lineTo(x, y);
        }
        if (shape.closed === true) context.closePath();
        if (shape.fill !== undefined) {
          context.fillStyle = ink.colour[shape.fill];
          context.fill();
        }
        if (shape.pen !== undefined) stroke(context, shape.pen);
        return;
      case 'disc':
        context.beginPath();
        context.arc(shape.x, shape.y, shape.r, 0, 2 * Math.PI);
        if (shape.fill !== undefined) {
          context.fillStyle = ink.colour[shape.fill];
          context.fill();
        }
        if (shape.pen !== undefined) stroke(context, shape.pen);
        return;
      case 'text':
        context.font = fontOf(ink, shape.size, shape.bold === true);
        context.textAlign = shape.anchor === 'middle' ? 'center' : shape.anchor === 'end' ? 'right' : 'left';
        context.textBaseline = 'alphabetic';
        if (shape.halo !== undefined) {
          context.setLineDash([]);
          context.lineWidth = 4;
          context.strokeStyle = ink.colour[shape.halo];
          context.strokeText(shape.text, shape.x, shape.y);
        }
        context.globalAlpha = shape.alpha ?? 1;
        context.fillStyle = ink.colour[shape.tone];
        context.fillText(shape.text, shape.x, shape.y);
        context.globalAlpha = 1;
        return;
      default:
        shape satisfies never;
    }
  };

  return {
    ink,
    texture,
    paint(context, shapes) {
      context.lineJoin = 'round';
      context.lineCap = 'butt';
      for (const shape of shapes) put(context, shape);
    },
  };
}

/** A canvas of so many CSS px, as fine as the screen, with its context in CSS px; cleared. null: no canvas here. */
export function fitCanvas(
  canvas: HTMLCanvasElement,
  w: number,
  h: number,
  ratio: number,
): CanvasRenderingContext2D | null {
  const [width, height] = [Math.max(1, Math.round(w * ratio)), Math.max(1, Math.round(h * ratio))];
  const context = canvas.getContext('2d');
  if (context === null) return null;
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  } else {
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, width, height);
  }
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  return context;
}
