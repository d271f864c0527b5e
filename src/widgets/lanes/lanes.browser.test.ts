import '@fontsource/b612/400.css';
import '@fontsource/b612/700.css';
import { beforeAll, describe, expect, it } from 'vitest';
import { commands } from 'vitest/browser';
import TOKENS from '../../app/styles/tokens.css?raw';
import { METRIC, type UnitChoice } from '../../units/display.ts';
import { inkOf } from './canvas.ts';
import type { LanesSize } from './geometry.ts';
import { ladderRect } from './ladder-painter.ts';
import { createLanesPainter, type LanesPicture, linesRect } from './painter.ts';
import { LADDERS, type PictureName, pictureOf, SIZES } from './testing/pictures.ts';

// The lanes as a browser draws them, beside pictures that were looked at. One that is deleted is made anew, and the test fails
// until it has been looked at and run again.

const FOLDER = 'fixtures/lanes';
/** Pictures are compared in squares of so many px, by their mean: letters are smoothed differently by each browser. */
const SQUARE = 3;
/** A square differs by more than this in one of its colours, 0…255. */
const DIFFERENT = 36;
/** Share of squares that may differ. */
const MOST = 0.004;

beforeAll(async () => {
  const style = document.createElement('style');
  style.textContent = TOKENS.replace(/@font-face[^}]*}/g, '');
  document.head.append(style);
  await Promise.all([document.fonts.load('400 20px B612'), document.fonts.load('700 20px B612')]);
});

/** The four canvases of a picture, laid over each other. */
function drawn(p: LanesPicture, theme: string): HTMLCanvasElement {
  document.documentElement.dataset.theme = theme;
  const make = () => document.createElement('canvas');
  const canvases = { ground: make(), lines: document.createElement('div'), over: make(), ladder: make() };
  createLanesPainter(canvases, inkOf(document.documentElement), 1).draw(p, p.ladder.bar);
  return composed(p, canvases);
}

function composed(
  p: LanesPicture,
  canvases: Record<'ground' | 'over' | 'ladder', HTMLCanvasElement> & { lines: HTMLElement },
): HTMLCanvasElement {
  const out = document.createElement('canvas');
  out.width = p.size.w;
  out.height = p.size.h;
  const context = out.getContext('2d')!;
  context.fillStyle = getComputedStyle(document.documentElement).getPropertyValue('--plate');
  context.fillRect(0, 0, out.width, out.height);
  const [lines, ladder] = [linesRect(p.box), ladderRect(p.box)];
  context.drawImage(canvases.ground, 0, 0);
  context.save();
  context.beginPath();
  context.rect(lines.x, lines.y, lines.w, lines.h);
  context.clip();
  const strip = canvases.lines.firstElementChild as HTMLElement;
  const moved = Number.parseFloat(/translateX\(([-.\d]+)px\)/.exec(strip.style.transform)![1]!);
  for (const tile of strip.querySelectorAll('canvas'))
    context.drawImage(tile, lines.x + moved + Number.parseFloat(tile.style.left), lines.y);
  context.restore();
  context.drawImage(canvases.over, 0, 0);
  context.drawImage(canvases.ladder, ladder.x, ladder.y);
  return out;
}

function squares(canvas: HTMLCanvasElement): Float32Array {
  const [w, h] = [Math.floor(canvas.width / SQUARE), Math.floor(canvas.height / SQUARE)];
  const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
  const out = new Float32Array(w * h * 3);
  for (let y = 0; y < h * SQUARE; y++)
    for (let x = 0; x < w * SQUARE; x++)
      for (let k = 0; k < 3; k++)
        out[(Math.floor(y / SQUARE) * w + Math.floor(x / SQUARE)) * 3 + k]! +=
          data[(y * canvas.width + x) * 4 + k]! / SQUARE ** 2;
  return out;
}

/** Share of squares that differ. */
function difference(a: HTMLCanvasElement, b: HTMLCanvasElement): number {
  if (a.width !== b.width || a.height !== b.height) return 1;
  const [one, other] = [squares(a), squares(b)];
  let n = 0;
  for (let i = 0; i < one.length; i += 3)
    if ([0, 1, 2].some((k) => Math.abs(one[i + k]! - other[i + k]!) > DIFFERENT)) n++;
  return n / (one.length / 3);
}

async function kept(name: string): Promise<HTMLCanvasElement | null> {
  const file = await commands.readFile(`${FOLDER}/${name}.png`, 'base64').catch(() => null);
  if (file === null) return null;
  const image = new Image();
  image.src = `data:image/png;base64,${file}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth;
  canvas.height = image.naturalHeight;
  canvas.getContext('2d')!.drawImage(image, 0, 0);
  return canvas;
}

async function compare(name: string, canvas: HTMLCanvasElement): Promise<void> {
  const before = await kept(name);
  if (before === null)
    await commands.writeFile(`${FOLDER}/${name}.png`, canvas.toDataURL().split(',')[1]!, 'base64');
  expect(before, `${name}.png was made: look at it, then run again`).not.toBeNull();
  expect(difference(before!, canvas), name).toBeLessThan(MOST);
}

describe('the lanes look as they did', () => {
  const psi: UnitChoice = { ...METRIC, pressure: 'psi' };
  const more: readonly [PictureName, LanesSize, string, UnitChoice, string][] = [
    ['hold', SIZES.tablet, 'dark', METRIC, 'hold-tablet-dark'],
    ['rising', SIZES.tablet, 'light', METRIC, 'rising-tablet-light'],
    ['over', SIZES.tablet, 'sun', METRIC, 'over-tablet-sun'],
    ['narrow', SIZES.tablet, 'light', psi, 'narrow-tablet-psi'],
    ['lift', SIZES.low, 'light', METRIC, 'lift-low-light'],
  ];
  it.each(Object.keys(LADDERS) as PictureName[])('%s on a phone', async (name) => {
    await compare(`${name}-phone-light`, drawn(pictureOf(name, SIZES.phone), 'light'));
  });
  it.each(more)('%s elsewhere', async (name, size, theme, units, file) => {
    await compare(file, drawn(pictureOf(name, size, units), theme));
  });
  it('and two states that differ are told apart', () => {
    const of = (name: PictureName) => drawn(pictureOf(name, SIZES.phone), 'light');
    expect(difference(of('hold'), of('lost'))).toBeGreaterThan(20 * MOST);
    expect(difference(of('hold'), of('lift'))).toBeGreaterThan(2 * MOST);
  });
});

it('a ladder whose pointer moved row by row is the one that is drawn at once', () => {
  document.documentElement.dataset.theme = 'light';
  const make = () => document.createElement('canvas');
  const canvases = { ground: make(), lines: document.createElement('div'), over: make(), ladder: make() };
  const painter = createLanesPainter(canvases, inkOf(document.documentElement), 1);
  const p = pictureOf('cue', SIZES.tablet);
  for (const bar of [0.2, 0.9, 0.91, 1.3, 0.1, 1.11]) painter.draw(p, bar);
  painter.draw(p, p.ladder.bar);
  expect(difference(composed(p, canvases), drawn(p, 'light'))).toBe(0);
});

it('a mark of the second pressure that moved is the one that is drawn at once', () => {
  document.documentElement.dataset.theme = 'light';
  const make = () => document.createElement('canvas');
  const canvases = { ground: make(), lines: document.createElement('div'), over: make(), ladder: make() };
  const painter = createLanesPainter(canvases, inkOf(document.documentElement), 1);
  const p = pictureOf('cue', SIZES.tablet);
  const at = (bar: number): LanesPicture => ({
    ...p,
    ladder: { ...p.ladder, second: { name: 'Supply', bar } },
  });
  for (const bar of [0.1, 0.7, 1.4]) painter.draw(at(bar), p.ladder.bar);
  expect(difference(composed(at(1.4), canvases), drawn(at(1.4), 'light'))).toBe(0);
  expect(difference(composed(at(1.4), canvases), drawn(p, 'light'))).toBeGreaterThan(0);
});

it.each(['phone', 'tablet'] as const)(
  'a picture that moved on step by step is the one that is drawn at once: %s',
  (size) => {
    document.documentElement.dataset.theme = 'light';
    const make = () => document.createElement('canvas');
    const canvases = { ground: make(), lines: document.createElement('div'), over: make(), ladder: make() };
    const painter = createLanesPainter(canvases, inkOf(document.documentElement), 1);
    const at = (nowS: number): LanesPicture => {
      const p = pictureOf('cue', SIZES[size]);
      return { ...p, lines: { ...p.lines, nowS } };
    };
    const ends = at(130);
    for (let s = 100; s < 130; s += 0.37) {
      // What comes later is not known yet.
      const p = at(s);
      painter.draw({ ...p, buffer: ends.buffer }, p.ladder.bar);
    }
    painter.draw(ends, ends.ladder.bar);
    expect(difference(composed(ends, canvases), drawn(ends, 'light'))).toBe(0);
  },
);
